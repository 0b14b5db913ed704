// Walks through the pages as people do, in one browser, on the pages that fencerow serves
// or on the one file that carries the program, and asserts what they must give.
//
//   node flow.mjs MODULES BROWSER PROGRAM URL [short] [pictures=DIR]
//
// MODULES is a folder with puppeteer-core and axe-core, BROWSER chromium or firefox,
// PROGRAM the fencerow that the answers are compared with, URL http://127.0.0.1:... or
// file:///.... short: the demo alone.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const [modules, browserName, program, url, ...options] = process.argv.slice(2);
const require = createRequire(resolve(modules, "x.js"));
const puppeteer = require("puppeteer-core");
const axe = readFileSync(join(resolve(modules), "axe-core/axe.min.js"), "utf8");
const pictures = (options.find((o) => o.startsWith("pictures=")) || "").slice(9);
const oneFile = url.startsWith("file:") || url.endsWith(".html");
const folder = mkdtempSync(join(tmpdir(), "fencerow-flow"));
const today = "2026-11-25";
const draws = oneFile ? 4096 : 16384;
const said = (...all) => console.log(`${browserName} ${oneFile ? "file" : "serve"}:`, ...all);

const browser = await puppeteer.launch({
  browser: browserName === "firefox" ? "firefox" : "chrome",
  executablePath: browserName === "firefox" ? "/usr/bin/firefox-esr" : "/usr/bin/chromium",
  args: browserName === "firefox" ? [] : ["--no-sandbox"],
});

// opened is a new page that fails the walk on any fault of a script, and on any request of
// the one file.
const faults = [];
async function opened(width = 1000, script = true) {
  const page = await browser.newPage();
  if (!script) await page.setJavaScriptEnabled(false);
  await page.setViewport({ width, height: 900 });
  page.on("pageerror", (e) => faults.push(String(e)));
  page.on("console", (m) => { if (m.type() === "error") faults.push(m.text()); });
  page.on("request", (r) => {
    const to = r.url();
    if (oneFile && !/^(blob|data):/.test(to) && to.split("#")[0] !== url) faults.push("request of " + to);
  });
  await page.goto(url);
  await page.waitForSelector("form");
  return page;
}
const titled = (page, words) => page.waitForFunction((w) => document.title.includes(w) && !document.body.hasAttribute("aria-busy"), { timeout: 60000 }, words);
const looked = async (page, name) => {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  assert.deepEqual(violations.map((v) => `${name}: ${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(" | ")}`), []);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${name} is ${wide} px wider than the window`);
  if (!pictures) return;
  const usual = page.viewport();
  for (const width of [360, 816, 1280]) { // the upper part, as a phone, a sheet of paper and a projector have it
    await page.setViewport({ width, height: width < 500 ? 1400 : 1000 });
    await page.screenshot({ path: join(pictures, `page-${name}-${width}.png`) });
  }
  await page.setViewport(usual);
};
const sheetText = (page) => page.$eval(".sheets", (e) => e.textContent.replace(/\s+/g, " ").trim());
// compared is what the program says of an operation file, as text of its page.
function compared(yaml, years) {
  const file = join(folder, "operation.yaml"), out = join(folder, "page.html");
  writeFileSync(file, yaml);
  execFileSync(program, ["compare", file, "--book", "none", "--today", today, "--draws", String(draws), "--page", out, "--force", ...(years ? ["--crop-year", years] : [])], { stdio: ["ignore", "ignore", "pipe"] });
  return readFileSync(out, "utf8");
}
// same asserts that two texts are one, and shows where they part.
const same = (a, b, words) => {
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  assert.ok(a === b, `${words}: ...${a.slice(Math.max(0, i - 60), i + 120)}... and ...${b.slice(Math.max(0, i - 60), i + 120)}...`);
};
const textOf = async (page, html) => page.evaluate((h) => new DOMParser().parseFromString(h, "text/html").querySelector("main").textContent.replace(/\s+/g, " ").trim(), html);
// kept is the file that the page gives to keep.
async function keptBytes(page) {
  return Buffer.from(await page.evaluate(() => new Promise((done) => {
    const create = URL.createObjectURL;
    URL.createObjectURL = (blob) => { URL.createObjectURL = create; blob.arrayBuffer().then((b) => done([...new Uint8Array(b)])); return create.call(URL, blob); };
    HTMLAnchorElement.prototype.click = function () { if (!this.download) HTMLElement.prototype.click.call(this); };
    document.querySelector('button[formaction="/keep"]').click();
  })));
}
const kept = async (page) => String(await keptBytes(page));

try {
  // The demo, from the first page to the sheet of paper.
  let page = await opened(360);
  await looked(page, "start");
  await page.click("button[name=demo]");
  await titled(page, "The answer");
  await looked(page, "demo");
  await page.click('button[value="all"]');
  await titled(page, "Sheets to print");
  await looked(page, "sheets");
  if (browserName !== "firefox") {
    const pictures = [], walk = (node) => { if (/^(img|image)$/.test(node.role)) pictures.push(node.name); (node.children || []).forEach(walk); };
    walk(await page.accessibility.snapshot({ interestingOnly: false }));
    assert.ok(pictures.length >= 12 && pictures.every((name) => name.split(" ").length > 6), `pictures are no sentences to a screen reader: ${JSON.stringify(pictures)}`);
    await page.emulateMediaType("print");
    const hidden = await page.$$eval(".top, .buttons", (all) => all.filter((e) => e.getClientRects().length).length);
    assert.equal(hidden, 0, "buttons are printed");
  }
  await page.close();
  if (options.includes("short")) {
    assert.deepEqual(faults, []);
    said("opened and answered");
    await browser.close();
    process.exit(0);
  }

  // A record of four crops, by keyboard alone.
  page = await opened(816);
  const record = [["corn", "1245.6", "171", "PLC"], ["soybeans", "980.25", "47", "ARC-CO"], ["wheat", "210", "62", "PLC"], ["oats", "35.5", "71", ""]];
  let keys = 0;
  const press = async (key) => { keys++; await page.keyboard.press(key); };
  const type = async (text) => { keys += text.length; await page.keyboard.type(text); };
  await page.focus('button[formaction="/land"]');
  await press("Enter");
  await titled(page, "farm record");
  await page.focus("#f1\\.county");
  await type("Story, Iowa"); await press("Tab"); await type("0417"); await press("Tab");
  for (const [crop, acres, yieldText, elected] of record) {
    await type(crop.slice(0, 2)); await press("Tab"); await type(acres); await press("Tab"); await type(yieldText); await press("Tab");
    if (elected) await type(elected[0]);
    await press("Tab");
  }
  for (const [i, [crop]] of record.entries()) assert.equal(await page.$eval(`#f1\\.b${i + 1}\\.crop`, (e) => e.value), crop);
  await looked(page, "land");
  await press("Enter"); // the first button after the last line
  // The county has two yields of soybeans: the page asks once for the irrigated percentage.
  await page.waitForSelector("#fault-f1\\.b2\\.irrigated");
  await page.focus("#f1\\.b2\\.irrigated"); await type("0"); await press("Enter");
  await titled(page, "Who shares");
  await looked(page, "shares");
  await page.focus('button[value="next"]'); await press("Enter");
  await titled(page, "What is known");
  await looked(page, "known");
  await page.focus('button[value="next"]'); await press("Enter");
  await titled(page, "The answer");
  assert.ok(keys / record.length <= 45, `${keys / record.length} keys a base`);
  said(`${keys} keys for ${record.length} bases, ${keys / record.length} a base`);
  await looked(page, "answer");
  const yaml = await kept(page);
  same(await sheetText(page), await textOf(page, compared(yaml)), "the answer is not that of compare");

  // A changed price answers beside the box at once.
  const before = await page.$eval("#tried", (e) => e.textContent);
  await page.$eval("#tp\\.corn", (e) => { e.focus(); e.select(); });
  const start = Date.now();
  await page.keyboard.type("3.90");
  await page.waitForFunction((b) => document.getElementById("tried").textContent !== b, {}, before);
  said("changed price answered after", Date.now() - start, "ms of typing and working");
  const explained = execFileSync(program, ["explain", join(folder, "operation.yaml"), "--farm", "0417", "--commodity", "corn", "--crop-year", "2026", "--mya", "3.90", "--county-yield", await page.$eval("[id^='ty.19169.corn']", (e) => e.value), "--book", "none", "--today", today, "--json"], { encoding: "utf8" });
  const paid = JSON.parse(explained).programs.PLC.payment_per_base_acre;
  await page.waitForFunction((p) => document.getElementById("tried").textContent.includes("$" + p), { timeout: 5000 }, paid.toFixed(2));

  // Back, forward and reload lose nothing.
  for (const words of ["What is known", "Who shares", "farm record"]) { await page.goBack(); await titled(page, words); }
  assert.equal(await page.$eval("#f1\\.b2\\.acres", (e) => e.value), "980.25");
  await page.goForward(); await titled(page, "Who shares");
  await page.goForward(); await titled(page, "What is known");
  await page.reload(); await titled(page, "What is known");
  await page.click('button[value="next"]'); await titled(page, "The answer");
  same(await sheetText(page), await textOf(page, compared(yaml)), "something was lost on the way back");

  // The lender's sheet is that of compare too.
  await page.click('button[value="lender"]'); await titled(page, "Sheets to print");
  assert.match(await sheetText(page), /2025/);
  await page.close();

  // A table with mistakes is refused line by line, and going back keeps it.
  page = await opened(390);
  const table = "farm,county,crop,base acres,PLC yield\n1,\"Story, Iowa\",corn,-5,171\n1,\"Story, Iowa\",soybeanz,80,47\n";
  await page.$eval("#pasted", (e, t) => { e.value = t; }, table);
  await page.click('button[value="open"]'); await titled(page, "cannot be answered");
  const wrong = await page.$eval("[role=alert]", (e) => e.textContent);
  assert.match(wrong, /-5/); assert.match(wrong, /soybeanz/);
  await looked(page, "mistakes");
  await page.goBack(); await page.waitForSelector("#pasted");
  assert.equal(await page.$eval("#pasted", (e) => e.value.trim()), table.trim(), "what was pasted is lost");
  await page.close();

  // So is an opened file; mended and opened again it gives the answer of compare.
  page = await opened(816);
  const opens = async (name, text, words) => {
    writeFileSync(join(folder, name), text);
    await (await page.$("#opened")).uploadFile(join(folder, name));
    await page.click('button[value="open"]'); await titled(page, words);
  };
  await opens("farms.csv", table, "cannot be answered");
  assert.match(await page.$eval("[role=alert]", (e) => e.textContent), /soybeanz/);
  await page.goBack(); await page.waitForSelector("#opened");
  await opens("mended.csv", table.replace("-5", "120").replace("soybeanz", "soybeans"), "The answer");
  await page.click("header a"); await page.waitForSelector("#opened");
  await opens("operation.yaml", yaml, "The answer");
  same(await sheetText(page), await textOf(page, compared(yaml)), "an opened file gives another answer");
  await page.close();

  // Mistakes in a typed record stand beside the field.
  page = await opened(390);
  await page.click('button[formaction="/land"]'); await titled(page, "farm record");
  await page.type("#f1\\.county", "Storey, Iowa"); await page.select("#f1\\.b1\\.crop", "wheat"); await page.type("#f1\\.b1\\.acres", "12o");
  await page.click('button[value="next"]'); await page.waitForSelector("#fault-f1\\.b1\\.acres");
  await page.waitForSelector("#fault-f1\\.county");
  await looked(page, "wrong");
  const fill = async (id, text) => { await page.$eval(id, (e) => { e.value = ""; }); await page.type(id, text); };
  await page.click('[role=alert] a[href="#f1.county"]'); // leads to the field, not away
  assert.equal(await page.evaluate(() => document.activeElement.id), "f1.county");
  await fill("#f1\\.county", "Story, Iowa"); await fill("#f1\\.b1\\.acres", "120"); await page.type("#f1\\.b1\\.yield", "6.2");
  await page.click('a[href="/words"]'); await titled(page, "Words"); // what is typed stays meanwhile
  await page.click("[data-back]"); await titled(page, "farm record");
  await page.click('button[value="next"]'); await page.waitForSelector("#fault-f1\\.b1\\.yield"); // far from the county's
  await fill("#f1\\.b1\\.yield", "62"); await page.click('button[value="next"]'); await titled(page, "Who shares");
  await page.click('button[value="next"]'); await titled(page, "What is known");
  await page.type("#p\\.wheat\\.2026", "6.10"); await page.type("#y\\.19169\\.wheat\\.all\\.2026", "66");
  await page.select("#s\\.19169\\.wheat\\.all\\.2026", "local_harvest");
  await page.click('button[value="next"]'); await titled(page, "The answer");
  const typedAnswer = await sheetText(page);
  assert.match(typedAnswer, /66 bushels/); assert.match(typedAnswer, /6\.10/);
  // On the way back and forth by the buttons nothing typed is dropped, of any crop.
  for (const [step, words] of [["/land", "farm record"], ["/shares", "Who shares"], ["/answer", "The answer"]]) { await page.click(`.way button[formaction="${step}"]`); await titled(page, words); }
  same(await sheetText(page), typedAnswer, "a typed price or yield was lost on the way");
  // What is kept, a .zip here, opens again into the forms.
  const packed = join(folder, "kept.zip");
  writeFileSync(packed, await keptBytes(page));
  await page.click("header a"); await page.waitForSelector("#opened");
  assert.equal(await page.$eval("#goon", (e) => e.getClientRects().length), 0, "there is nothing to go on with");
  await (await page.$("#opened")).uploadFile(packed);
  await page.click('button[value="open"]'); await titled(page, "The answer");
  same(await sheetText(page), typedAnswer, "the kept file gives another answer");
  await page.click('.way button[formaction="/land"]'); await titled(page, "farm record");
  assert.equal(await page.$eval("#f1\\.county", (e) => e.value), "Story, Iowa");
  await page.close();

  // The room, and the words.
  page = await opened(1280);
  await page.click('a[href="/room"]'); await titled(page, "for a room");
  await page.type("#county", "Story, Iowa"); await page.select("#crop", "corn"); await page.type("#plc", "171");
  await page.waitForSelector("table.room");
  await page.type("#price", "4.10");
  await page.waitForFunction(() => document.getElementById("shown").textContent.includes("price $4.10"));
  await looked(page, "room");
  await page.goBack(); await titled(page, "which pays more");
  await page.click('a[href="/words"]'); await titled(page, "Words");
  await looked(page, "words");
  if (oneFile && browserName !== "firefox") {
    const [worker] = page.workers();
    const bytes = await worker.evaluate(() => memory.buffer.byteLength);
    said("memory of the program:", (bytes / 1048576).toFixed(1), "MiB");
    assert.ok(bytes < 64 << 20, `${bytes} bytes of memory`);
  }
  await page.close();

  // Without a script, where the pages are served.
  if (!oneFile && browserName !== "firefox") {
    page = await opened(360, false);
    const press2 = async (selector, words) => { await Promise.all([page.waitForNavigation(), page.click(selector)]); assert.match(await page.title(), words); };
    await press2('button[formaction="/land"]', /farm record/);
    await page.type("#f1\\.county", "Story, Iowa"); await page.select("#f1\\.b1\\.crop", "corn"); await page.type("#f1\\.b1\\.acres", "120"); await page.type("#f1\\.b1\\.yield", "171");
    await press2('button[value="next"]', /Who shares/);
    await press2('button[value="next"]', /What is known/);
    await press2('button[value="next"]', /The answer/);
    await press2('button[value="all"]', /Sheets to print/);
    await page.close();
  }
  // What the browser was asked to remember is offered on the first page.
  page = await opened(816);
  await page.click("button[name=demo]"); await titled(page, "The answer");
  await page.click("#remember");
  await page.reload(); await page.waitForSelector("form");
  if (!(await page.title()).includes("The answer")) await titled(page, "The answer");
  await page.click("header a"); await page.waitForSelector("#goon:not([hidden])");
  await page.click("#goon button"); await titled(page, "The answer");
  await page.click("#remember");
  await page.close();

  assert.deepEqual(faults, []);
  said("walked through");
} finally {
  await browser.close();
}
