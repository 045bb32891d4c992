// The blocks of README.md that readers copy, found by the word after their language: the tests use exactly what is pasted.
import { readFile } from "node:fs/promises";

const text = await readFile(new URL("../../../README.md", import.meta.url), "utf8");

/** The block fenced as "```LANGUAGE NAME", with the invented service's address replaced by a real one. */
export function pasted(name, service) {
  const found = [...text.matchAll(/^```\w+ ([\w-]+)\n(.*?)^```$/gms)].filter(([, word]) => word === name);
  if (found.length !== 1) throw new Error(`README.md has ${found.length} blocks named ${name}`);
  return found[0][2].trim().replaceAll("https://presurvey.example", service);
}

/** A block that holds one header, as `{ name: value }`. */
export function pastedHeader(name, service) {
  const [header, ...value] = pasted(name, service).split(": ");
  return { [header.toLowerCase()]: value.join(": ") };
}

/** The rows of the table whose first heading is this one, each a list of its cells. */
export function table(heading) {
  const found = [...text.matchAll(/^\| (.*?) \|.*\n\| ---.*\n((?:\|.*\n)+)/gm)].filter(([, first]) => first === heading);
  if (found.length !== 1) throw new Error(`README.md has ${found.length} tables that begin with ${heading}`);
  return found[0][2].trimEnd().split("\n").map((row) => row.slice(2, -2).split(" | "));
}
