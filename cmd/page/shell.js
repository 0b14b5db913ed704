// Unpacks the program, starts it in a worker and hands requests to it.
"use strict";
(() => {
  const waiting = new Map();
  let next = 0, worker = null;
  self.fencerow = {
    send: (path, fields) => new Promise((done) => {
      waiting.set(++next, done);
      worker.postMessage({ id: next, path, fields });
    }),
  };
  const begin = async () => {
    const text = atob(document.getElementById("program").textContent);
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    const program = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
    document.getElementById("program").remove();
    const place = URL.createObjectURL(new Blob([workerText], { type: "text/javascript" }));
    worker = new Worker(place);
    worker.onmessage = (event) => {
      if (event.data.ready) return self.fencerowBegin();
      waiting.get(event.data.id)(event.data);
      waiting.delete(event.data.id);
    };
    worker.postMessage({ program, settings }, [program]);
  };
  begin().catch((fault) => {
    document.getElementById("loading").textContent = "The program cannot start in this browser (" + fault + "). A browser of 2023 or later can run it.";
  });
})();
