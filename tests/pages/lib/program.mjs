// The native program, run as a person would.
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { programPath } from "./serve.mjs";

const run = promisify(execFile);

/** Runs `presurvey` with these arguments and this standard input; returns its standard output. */
export async function presurvey(args, input) {
  const child = run(programPath(), args, { maxBuffer: 64 * 1024 * 1024 });
  child.child.stdin.on("error", () => {}); // a program that refuses its arguments exits without reading its input
  child.child.stdin.end(input ?? "");
  return (await child).stdout;
}
