// The worst photograph for privacy: a JPEG that says where it was taken, with which camera, and by whom.
import { execFile } from "node:child_process";
import { writeFile } from "node:fs/promises";
import { promisify } from "node:util";

const run = promisify(execFile);

/** Saves a picture of the page as it is now, with a camera's metadata in it; returns the path. */
export async function telltalePhotograph(page, path) {
  await writeFile(path, await page.screenshot({ type: "jpeg", quality: 80 }));
  await run("exiftool", [
    "-overwrite_original",
    "-GPSLatitude=50", "-GPSLatitudeRef=N", "-GPSLongitude=10", "-GPSLongitudeRef=W", // open sea
    "-Make=Invented", "-Model=Invented Camera", "-SerialNumber=INVENTED-SERIAL", "-Artist=Invented Person",
    "-XMP:Creator=Invented Person", "-Comment=invented comment",
    path,
  ]);
  return path;
}

/** Everything that exiftool reads in a file, by group and tag. */
export async function tagsOf(path) {
  const { stdout } = await run("exiftool", ["-json", "-G1", "-a", "-u", path]);
  return JSON.parse(stdout)[0];
}
