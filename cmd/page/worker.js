// The program runs beside the page, so that the page stays alive while it works.
let memory = null;
onmessage = async (event) => {
  if (event.data.program) {
    const go = new Go();
    const { instance } = await WebAssembly.instantiate(event.data.program, go.importObject);
    memory = instance.exports.mem; // looked at by tests
    go.run(instance);
    fencerowStart(event.data.settings);
    return postMessage({ ready: true });
  }
  const { id, path, fields } = event.data;
  fencerowAnswer(path, fields, (status, type, name, body) => postMessage({ id, status, type, name, body }, [body.buffer]));
};
