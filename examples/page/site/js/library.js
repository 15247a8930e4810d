// The library, compiled to wasm, and how to ask it.

// fetched is a compressed file, taken apart here, so that any plain server will do.
export async function fetched(name) {
  const response = await fetch(name);
  if (!response.ok) throw new Error(`${name}: the server says ${response.status}`);
  const bytes = await response.arrayBuffer();
  const start = new Uint8Array(bytes, 0, 2);
  if (start[0] !== 0x1f || start[1] !== 0x8b) return bytes; // the browser has done so
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}

async function load(name, event) {
  const bytes = await fetched(name);
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
