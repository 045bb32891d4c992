// Makes a program fail: puts a trap at the start of one of its functions, as a panic would end in one.

/** The LEB128 number of a WebAssembly file at this position, and the position after it. */
function number(bytes, at) {
  let value = 0;
  for (let shift = 0; ; shift += 7) {
    const byte = bytes[at++];
    value += (byte & 0x7f) * 2 ** shift;
    if (byte < 0x80) return [value, at];
  }
}

/** A number encoded as LEB128. */
const written = (value) => (value < 0x80 ? [value] : [(value % 0x80) | 0x80, ...written(Math.floor(value / 0x80))]);

/** The sections of a program: `{ id, body }`, in their order. */
function sections(bytes) {
  const all = [];
  for (let at = 8; at < bytes.length; ) {
    const [size, start] = number(bytes, at + 1);
    all.push({ id: bytes[at], body: bytes.subarray(start, start + size) });
    at = start + size;
  }
  return all;
}

const EXPORTS = 7;
const CODE = 10;

/** The index of an exported function. */
function indexOf(name, body) {
  let [count, at] = number(body, 0);
  for (; count > 0; count -= 1) {
    const [length, start] = number(body, at);
    const found = body.subarray(start, start + length).toString();
    const [index, next] = number(body, start + length + 1);
    if (found === name) return index;
    at = next;
  }
  throw new Error(`the program exports no ${name}`);
}

/** The functions that a program exports, by name. */
export const functionsOf = (bytes) =>
  WebAssembly.Module.exports(new WebAssembly.Module(bytes))
    .filter(({ kind }) => kind === "function")
    .map(({ name }) => name);

/** The program with `unreachable` as the first instruction of the exported function of that name. */
export function trapAt(bytes, name) {
  const all = sections(bytes);
  const imported = WebAssembly.Module.imports(new WebAssembly.Module(bytes)).filter(({ kind }) => kind === "function").length;
  const wanted = indexOf(name, all.find(({ id }) => id === EXPORTS).body) - imported;
  const code = all.find(({ id }) => id === CODE);
  let [, at] = number(code.body, 0);
  for (let before = 0; before < wanted; before += 1) {
    const [size, start] = number(code.body, at);
    at = start + size;
  }
  const [size, start] = number(code.body, at);
  let [groups, first] = number(code.body, start);
  for (; groups > 0; groups -= 1) first = number(code.body, first)[1] + 1; // a count and a type, which is one byte
  code.body = Buffer.concat([
    code.body.subarray(0, at),
    Buffer.from(written(size + 1)),
    code.body.subarray(start, first),
    Buffer.from([0]),
    code.body.subarray(first),
  ]);
  const put = all.flatMap(({ id, body }) => [Buffer.from([id, ...written(body.length)]), body]);
  const faulty = Buffer.concat([bytes.subarray(0, 8), ...put]);
  if (!WebAssembly.validate(faulty)) throw new Error(`${name} could not be given a fault`);
  return faulty;
}
