// Reads a ZIP file whose parts are not compressed, by the central directory at its end (PKWARE's APPNOTE 6.3, 4.3).
import assert from "node:assert/strict";

/** The files in it, by name. */
export function filesOf(zip) {
  const end = zip.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  assert.equal(end, zip.length - 22, "the end record is the last 22 bytes");
  const [count, size, at] = [zip.readUInt16LE(end + 10), zip.readUInt32LE(end + 12), zip.readUInt32LE(end + 16)];
  assert.equal(at + size, end, "the central directory ends where the end record begins");
  const files = {};
  let entry = at;
  for (let number = 0; number < count; number += 1) {
    assert.equal(zip.readUInt32LE(entry), 0x02014b50);
    const [method, sum, stored, length] = [zip.readUInt16LE(entry + 10), zip.readUInt32LE(entry + 16), zip.readUInt32LE(entry + 20), zip.readUInt16LE(entry + 28)];
    const [extra, comment, head] = [zip.readUInt16LE(entry + 30), zip.readUInt16LE(entry + 32), zip.readUInt32LE(entry + 42)];
    const name = zip.toString("utf8", entry + 46, entry + 46 + length);
    assert.equal(method, 0, "stored as it is");
    assert.equal(zip.readUInt32LE(head), 0x04034b50);
    const from = head + 30 + zip.readUInt16LE(head + 26) + zip.readUInt16LE(head + 28);
    files[name] = zip.subarray(from, from + stored);
    assert.equal(crc32(files[name]), sum, `the checksum of ${name}`);
    entry += 46 + length + extra + comment;
  }
  return files;
}

/** CRC-32 by its definition, as a polynomial over single bits; independent of the program's own. */
function crc32(bytes) {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    for (let bit = 0; bit < 8; bit += 1) {
      const carry = (rest ^ (byte >> bit)) & 1;
      rest = (rest >>> 1) ^ (carry ? 0xedb88320 : 0);
    }
  }
  return (rest ^ 0xffffffff) >>> 0;
}
