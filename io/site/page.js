// The pages work without this script where a program serves them. It keeps them in one
// document, answers boxes at once, suggests counties and prints. In a page that is one
// file, fencerow.send asks the engine beside it; else it asks the program that served it.
"use strict";
(() => {
  let token = ""; // of the program that serves: a page without a form has none
  const served = async (path, fields) => {
    const body = new FormData(), current = document.querySelector("input[name=token]");
    if (current) token = current.value;
    body.append("token", token);
    for (const [name, value, text] of fields) {
      if (name === "token") continue; // of an earlier run, where the page was open since
      if (text === undefined) body.append(name, value);
      else body.append(name, new Blob([Uint8Array.from(text, (c) => c.charCodeAt(0))]), value);
    }
    const answer = await fetch(path, { method: "POST", body });
    const kept = /filename="?([^";]+)/.exec(answer.headers.get("Content-Disposition") || "");
    return { name: kept ? kept[1] : "", type: answer.headers.get("Content-Type"), body: new Uint8Array(await answer.arrayBuffer()) };
  };
  const send = (path, fields) => (self.fencerow ? self.fencerow.send(path, fields) : served(path, fields));

  // bytesOf are the bytes of a file, each as a letter: a text that can be kept with the rest.
  const bytesOf = async (file) => {
    let text = "";
    for (const byte of new Uint8Array(await file.arrayBuffer())) text += String.fromCharCode(byte);
    return text;
  };

  // fieldsOf are the fields of a form as [name, value], with a third part, the bytes, for a file.
  const fieldsOf = async (form, pressed) => {
    const fields = [];
    for (const [name, value] of new FormData(form)) {
      if (typeof value === "string") fields.push([name, value]);
      else if (value.size) fields.push([name, value.name, await bytesOf(value)]);
    }
    if (pressed && pressed.name) fields.push([pressed.name, pressed.value]);
    return fields;
  };

  let at = 0; // the newest request: older answers are dropped
  const show = (text, focus) => {
    const next = new DOMParser().parseFromString(text, "text/html");
    const current = document.querySelector("input[name=token]");
    if (current) token = current.value;
    document.title = next.title;
    for (const part of ["header", "main", "footer"]) {
      const old = document.querySelector("body > " + part), made = next.querySelector("body > " + part);
      if (old && made) old.replaceWith(made); else if (made) document.body.append(made);
    }
    remember();
    if (!focus) return;
    const wrong = document.querySelector("[role=alert]"), head = document.querySelector("main h1");
    const to = wrong || head;
    if (to) { to.tabIndex = -1; to.focus({ preventScroll: true }); }
    scrollTo(0, 0);
  };
  const keep = (name, type, body) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([body], { type }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    const said = document.getElementById("kept");
    if (said) said.textContent = name + " is among the downloads of your browser. The first page opens it again.";
  };
  const go = async (path, fields, push) => {
    const mine = ++at;
    document.body.setAttribute("aria-busy", "true");
    const answer = await send(path, fields);
    if (mine !== at) return;
    document.body.removeAttribute("aria-busy");
    if (answer.name) return keep(answer.name, answer.type, answer.body);
    if (push) history.pushState({ path, fields }, "", self.fencerow ? location.href : path);
    show(new TextDecoder().decode(answer.body), true);
  };

  document.addEventListener("submit", async (event) => {
    event.preventDefault();
    const form = event.target, pressed = event.submitter;
    const path = (pressed && pressed.getAttribute("formaction")) || form.getAttribute("action");
    const fields = await fieldsOf(form, pressed);
    history.replaceState({ path: form.getAttribute("action"), fields: fields.filter(([name]) => !pressed || name !== pressed.name) }, "");
    go(path, fields, true);
  });
  // leave follows a link; what is typed stays for the way back.
  const leave = async (path) => {
    const form = document.querySelector("main form");
    if (form) history.replaceState({ path: form.getAttribute("action"), fields: await fieldsOf(form) }, "");
    go(path, [], true);
  };
  document.addEventListener("click", (event) => {
    const near = (what) => event.target.closest && event.target.closest(what);
    const link = near('a[href^="/"]'), within = near('a[href^="#"]');
    if (link) { event.preventDefault(); leave(link.getAttribute("href")); }
    if (within) { // no step of the way: back does not stop here
      event.preventDefault();
      const to = document.getElementById(within.getAttribute("href").slice(1));
      if (to) { if (!to.matches("input, select, textarea")) to.tabIndex = -1; to.focus(); to.scrollIntoView({ block: "center" }); }
    }
    if (near("[data-print]")) print();
    if (near("[data-back]")) history.back();
  });
  document.addEventListener("focusin", (event) => { // typing replaces what stands there
    if (event.target.matches(".short input, .record input")) event.target.select();
  });
  addEventListener("popstate", (event) => {
    if (event.state) go(event.state.path, event.state.fields, false);
    else go("/", [], false);
  });

  // Boxes answer while they are typed in: what is shown beside them is replaced, not they.
  let later = 0;
  document.addEventListener("input", (event) => {
    const box = event.target, form = box.form;
    if (box.list && box.list.id === "counties") return suggest(box);
    if (!form || !box.closest("[data-live]")) return;
    clearTimeout(later);
    later = setTimeout(async () => {
      const mine = ++at, fields = await fieldsOf(form);
      const answer = await send(form.getAttribute("action"), fields);
      if (mine !== at) return;
      const next = new DOMParser().parseFromString(new TextDecoder().decode(answer.body), "text/html");
      for (const old of document.querySelectorAll("[data-answer]")) {
        const made = next.getElementById(old.id);
        if (made) old.replaceWith(made);
      }
      history.replaceState({ path: form.getAttribute("action"), fields }, "");
    }, 120);
  });
  let asked = 0;
  const suggest = async (box) => {
    const mine = ++asked;
    if (box.value.length < 2) return;
    const answer = await send("/counties", [["typed", box.value]]);
    const list = document.getElementById("counties");
    if (mine === asked && list) list.innerHTML = new TextDecoder().decode(answer.body);
  };

  // What is typed is kept in the browser only where the box is ticked.
  const place = "fencerow";
  const remember = () => {
    for (const back of document.querySelectorAll("[data-back]")) back.closest("p").hidden = false;
    const more = document.getElementById("goon");
    const last = kept();
    if (more && last && last.path) {
      more.hidden = false;
      more.addEventListener("click", () => go(last.path, last.fields, true));
    }
    const box = document.getElementById("remember");
    if (!box) return;
    box.closest("p").hidden = false;
    box.checked = last !== null;
    box.addEventListener("change", () => { if (box.checked) store(); else localStorage.removeItem(place); });
    if (box.checked) store();
  };
  const kept = () => {
    try { return JSON.parse(localStorage.getItem(place)); } catch { return null; } // a browser without storage
  };
  const store = () => localStorage.setItem(place, JSON.stringify(history.state));

  self.fencerowBegin = () => {
    if (history.state && history.state.path) return go(history.state.path, history.state.fields, false);
    if (self.fencerow) return go("/", [], false);
    remember();
  };
  if (!self.fencerow) self.fencerowBegin();
})();
