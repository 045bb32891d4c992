// Encodes a text for a link's fragment and decodes it: compressed where the browser can, in characters that need no escaping in an address.

const MOST = 200_000; // characters; a form's answers take a fiftieth of it

async function through(bytes, stream) {
  return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(stream)).arrayBuffer());
}

/** The encoded text, compressed if that is shorter; the first character says which. */
export async function compressed(text) {
  const plain = new TextEncoder().encode(text);
  const can = typeof CompressionStream === "function";
  const small = can ? await through(plain, new CompressionStream("deflate-raw")) : undefined;
  const [sign, bytes] = small && small.length < plain.length ? ["d", small] : ["p", plain];
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return sign + btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** The decoded text; throws where it was not encoded so, is cut short, or is longer than any form. */
export async function expanded(signs) {
  if (signs.length > MOST || !/^[dp][\w-]+$/.test(signs)) throw new Error("not of this kind");
  const binary = atob(signs.slice(1).replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (sign) => sign.charCodeAt(0));
  const plain = signs[0] === "d" ? await bounded(bytes) : bytes;
  return new TextDecoder("utf-8", { fatal: true }).decode(plain);
}

/** Decompresses bytes, up to the length of any form: a few bytes may expand to a great many. */
async function bounded(bytes) {
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const parts = [];
  for (let all = 0; ; ) {
    const { done, value } = await reader.read();
    if (done) return new Uint8Array(await new Blob(parts).arrayBuffer());
    parts.push(value);
    all += value.length;
    if (all > MOST) throw new Error("larger than any form");
  }
}
