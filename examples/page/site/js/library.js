// The library, compiled to wasm, and how to ask it.

// load fetches compressed wasm and takes it apart here, so that any plain server will do.
async function load(name, event) {
  const response = await fetch(name);
  if (!response.ok) throw new Error(`${name}: the server says ${response.status}`);
  let bytes = await response.arrayBuffer();
  const start = new Uint8Array(bytes, 0, 2);
  if (start[0] === 0x1f && start[1] === 0x8b) { // not yet taken apart by the browser
    bytes = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  }
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(bytes, go.importObject);
  const ready = new Promise((resolve) => addEventListener(event, resolve, { once: true }));
  go.run(instance);
  await ready;
}

export const start = () => load("forkcurve.wasm.gz", "forkcurve");

// ask calls a function of the library with the address of a state: {Answer, Faults}.
export const ask = (name, address, argument = "") => globalThis.forkcurve[name](address, argument);

let sheets;

// jobSheet makes a bench sheet of a job file: {Sheet, Faults}. Its part of the library is loaded on first use.
export async function jobSheet(name, text) {
  sheets ??= load("jobsheet.wasm.gz", "jobsheet");
  await sheets;
  return globalThis.jobSheet(name, text);
}
