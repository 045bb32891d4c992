// The reference receiver for an ordinary web host: a mail with all that was sent, or a refusal in words and no mail.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { promisify } from "node:util";
import { receiver } from "./lib/receiver.mjs";

const picture = (name) => readFile(new URL(`../../src/service/demo/drawings/${name}.jpg`, import.meta.url));
const [drive, board] = await Promise.all([picture("drive"), picture("board-spare")]);

const exiftool = async (...given) => (await promisify(execFile)("exiftool", given)).stdout;

const running = [];
const started = async (...given) => (running.push(await receiver(...given)), running.at(-1));
after(() => Promise.all(running.map((one) => one.stop())));

const PERSON = { name: "Invented Homeowner", telephone: "01632 960 123", email: "person@example.invalid" };

function form(fields = {}, files = []) {
  const data = new FormData();
  for (const [name, value] of Object.entries({ ...PERSON, ...fields })) {
    for (const one of [value].flat()) data.append(name, one);
  }
  for (const [name, bytes, file] of files) data.append(name, new Blob([bytes]), file);
  return data;
}

const post = async (to, body, accept = "application/json") => {
  const answer = await fetch(to.address, { method: "POST", body, headers: { accept } });
  const text = await answer.text();
  return { status: answer.status, headers: answer.headers, text, json: accept.includes("json") ? JSON.parse(text) : undefined };
};

test("an enquiry becomes one mail with its summary, its record and its photos whole", async () => {
  const host = await started();
  const record = JSON.stringify({ version: 1, note: "“invented”" });
  const sent = form(
    { summary: "Enquiry about a charge point\n\nName: Invented Homeowner\n.\nFrom here on – still text", client_key: "0123456789abcdef".repeat(2) },
    [["enquiry", record, "enquiry.json"], ["photo[]", drive, "a.jpg"], ["photo[]", board, "../../b.php"]],
  );
  const answer = await post(host, sent);
  assert.equal(answer.status, 201, answer.text + host.said());
  assert.match(answer.json.reference, /^[BCDFGHJKMNPQRTVWXZ234678]{4}-[BCDFGHJKMNPQRTVWXZ234678]{4}$/);
  const [mail, ...others] = await host.mails();
  assert.deepEqual(others, []);
  assert.equal(mail.headers.to, "enquiries@installer.example");
  assert.equal(mail.headers.subject, `Enquiry ${answer.json.reference}`);
  assert.equal(mail.headers["reply-to"], PERSON.email);
  assert.ok(mail.text.includes(answer.json.reference) && mail.text.includes("\n.\nFrom here on – still text"), mail.text);
  assert.deepEqual(Object.keys(mail.attached), ["enquiry.json", "photo-1.jpg", "photo-2.jpg"]);
  assert.equal(mail.attached["enquiry.json"].toString(), record);
  assert.ok(mail.attached["photo-1.jpg"].equals(drive) && mail.attached["photo-2.jpg"].equals(board));
  const again = await post(host, sent);
  assert.equal(again.json.reference, answer.json.reference, "sent twice it has one reference");
});

test("a plain form without a summary is written out, hazards first, and its browser is shown a page", async () => {
  const host = await started();
  const sent = form({ postcode: "ZZ1 1AA", "hazard[]": ["buzzing", "smoke"], "hazard-place": "board", note: "two\r\nlines" });
  const answer = await post(host, sent, "text/html");
  assert.equal(answer.status, 201);
  assert.match(answer.text, /Your reference: /);
  assert.match(answer.headers.get("content-security-policy"), /default-src 'none'/);
  const [mail] = await host.mails();
  assert.match(mail.text, /UNSAFE[^]*Noticed: buzzing, smoke\nWhere: board\nNote: two\nlines\n/);
});

test("what would steer the mail or is not allowed is refused by its field, and no mail is sent", async () => {
  const host = await started("'photos' => 2, 'photo_bytes' => 50000, 'all_bytes' => 60000");
  const large = Buffer.concat([drive, Buffer.alloc(60_000)]);
  const php = Buffer.from("<?php echo 1; ?>");
  for (const [sent, field] of [
    [form({ name: "Invented\r\nBcc: other@example.invalid" }), "name"],
    [form({ email: "a@example.invalid\nBcc: other@example.invalid" }), "email"],
    [form({ email: "a@example.invalid, b@example.invalid" }), "email"],
    [form({ telephone: "1\u00002" }), "telephone"],
    [form({ note: "\u001b[2J" }), "note"],
    [form({ name: "" }), "name"],
    [form({ name: "x".repeat(401) }), "name"],
    [form({ telephone: "", email: "" }), "telephone"],
    [form({ client_key: "../../x" }), "client_key"],
    [form({ "name[]": "x", name: [] }), "name"],
    [form({ "hazard[]": ["<b>"] }), "hazard"],
    [form({ hazard: ["smoke", "buzzing"] }), "hazard"],
    [form({ hazard: "none" }), "hazard"],
    [form({}, [["photo", drive, "a.jpg"], ["photo", board, "b.jpg"]]), "photo"],
    [form({}, [["enquiry", "{", "enquiry.json"]]), "enquiry"],
    [form({}, [["photo[]", php, "photo.jpg"]]), "photo"],
    [form({}, [["photos[]", drive, "photo.jpg"]]), "photos"],
    [form({}, [["bild", drive, "photo.jpg"]]), "bild"],
    [form({}, [["photo[]", drive.subarray(0, 2000), "photo.jpg"]]), "photo"],
    [form({}, [["photo[]", large, "photo.jpg"]]), "photo"],
    [form({}, [1, 2, 3].map(() => ["photo[]", drive, "photo.jpg"])), "photo"],
  ]) {
    const answer = await post(host, sent);
    assert.ok(answer.status === 422 || answer.status === 413, `${field}: ${answer.status} ${answer.text}`);
    assert.equal(answer.json.fields[0].path, field, answer.text);
    assert.ok(answer.json.fields[0].message.length > 10);
  }
  assert.equal((await fetch(host.address)).status, 405);
  assert.equal((await fetch(host.address, { method: "POST", body: "x", headers: { "content-type": "text/plain" } })).status, 413);
  assert.deepEqual(await host.mails(), []);
});

test("not set up it takes nothing, says what to set, and a script that sends keeps it", async () => {
  for (const [settings, says] of [
    ["", /`to` is to be a mail address/],
    ["'to' => 'enquiries@installer.example'", /`from` is to be a mail address/],
    ["'to' => 'enquiries@installer.example', 'from' => 'not an address'", /`from` is to be/],
    ["'folder' => 'KEPT/none'", /`folder` is to be a folder that exists/],
  ]) {
    const host = await started(settings, { unset: true });
    const answer = await post(host, form());
    assert.equal(answer.status, 503, answer.text);
    assert.match(answer.json.error, says);
    const opened = await fetch(host.address, { headers: { accept: "text/html" } });
    assert.equal(opened.status, 503);
    assert.match(await opened.text(), says);
    assert.deepEqual(await host.mails(), []);
  }
});

test("without a key the whole of what was sent makes it one: another hazard, another photo is another enquiry", async () => {
  const host = await started("'folder' => 'KEPT'");
  const same = { note: "the drive is at the side" };
  const forms = [
    form({ ...same, "hazard[]": "none" }),
    form({ ...same, "hazard[]": "smoke" }, [["photo[]", board, "a.jpg"]]),
    form({ ...same, "hazard[]": "smoke" }, [["photo[]", drive, "a.jpg"]]),
    form({ ...same, "hazard[]": "smoke", "hazard-when": "now" }, [["photo[]", drive, "a.jpg"]]),
    form({ ...same, postcode: "ZZ1 1AA" }),
  ];
  const references = [];
  for (const sent of [...forms, ...forms]) references.push((await post(host, sent)).json.reference);
  assert.equal(new Set(references).size, forms.length);
  assert.deepEqual(references.slice(forms.length), references.slice(0, forms.length), "sent again it is the same one");
  const kept = await host.files();
  assert.deepEqual(Object.keys(kept).sort(), references.slice(0, forms.length).sort());
  assert.match(kept[references[3]]["enquiry.txt"].toString(), /UNSAFE[^]*Noticed: smoke\nWhen noticed: now\n/);
});

test("what was added before it was sent again under the same key is kept beside the first", async () => {
  const host = await started("'folder' => 'KEPT'");
  const client_key = "cd".repeat(16);
  const first = (await post(host, form({ client_key }))).json.reference;
  const more = form({ client_key, "hazard[]": "smoke" }, [["photo[]", board, "a.jpg"]]);
  for (const time of [1, 2]) assert.equal((await post(host, more)).json.reference, first, `time ${time}`);
  const kept = await host.files();
  assert.deepEqual(Object.keys(kept).sort(), [first, `${first}-2`]);
  assert.match(kept[`${first}-2`]["enquiry.txt"].toString(), /Noticed: smoke/);
});

test("fields of a form's own are in the mail, and an empty trap for robots harms nothing", async () => {
  const host = await started();
  const answer = await post(host, form({ website: "", _token: "x1", submit: "Send", parking: "two cars,\r\nside by side", "rooms[]": ["kitchen", "hall"], consent: "on", offers: "on" }));
  assert.equal(answer.status, 201, answer.text);
  const [mail] = await host.mails();
  assert.match(mail.text, /^May be sent offers: yes\nparking: two cars, side by side\nrooms: kitchen, hall\n$/m);
  assert.doesNotMatch(mail.text, /website|_token|submit/);
});

test("a photo as a phone writes it arrives without place and camera, the right way up, its pixels untouched", async () => {
  const host = await started("'folder' => 'KEPT'");
  const folder = await mkdtemp(join(tmpdir(), "presurvey-phone-"));
  try {
    const phone = join(folder, "phone.jpg");
    await writeFile(phone, drive);
    const told = ["-GPSLatitude=51.5", "-GPSLatitudeRef=N", "-Make=Invented", "-Model=Phone", "-Orientation#=6", "-XMP:Creator=Somebody",
      "-IPTC:City=Invented", "-Comment=a remark", "-JFIF:XResolution=72"];
    await exiftool(...told, `-ThumbnailImage<=${phone}`, "-overwrite_original", phone);
    const sent = Buffer.concat([await readFile(phone), Buffer.from("a second picture after the end")]);
    for (const word of ["Invented", "Somebody", "a remark"]) assert.ok(sent.includes(word), word);
    const answer = await post(host, form({}, [["photo[]", sent, "a.jpg"]]));
    assert.equal(answer.status, 201, answer.text + host.said());
    const arrived = (await host.files())[answer.json.reference]["photo-1.jpg"];
    const kept = join(folder, "kept.jpg");
    await writeFile(kept, arrived);
    const [{ SourceFile: _, ...left }] = JSON.parse(await exiftool("-json", "-G0", "-n", "-EXIF:all", "-XMP:all", "-IPTC:all", "-MakerNotes:all", "-Photoshop:all", "-File:Comment", "-ThumbnailImage", kept));
    assert.deepEqual(left, { "EXIF:Orientation": 6 });
    assert.ok(arrived.length <= drive.length + 40 && !arrived.includes("second picture"));
    const coded = drive.subarray(drive.indexOf(Buffer.from([0xff, 0xdb])));
    assert.ok(coded.length > 10_000 && arrived.subarray(-coded.length).equals(coded), "tables and coded pixels are the same");
    for (const odd of [sent.subarray(0, 900), Buffer.concat([sent.subarray(0, 4), Buffer.from([0xff, 0xff]), sent.subarray(4, 60)])]) {
      assert.equal((await post(host, form({}, [["photo[]", odd, "a.jpg"]]))).status, 422);
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

test("with a folder set each enquiry is a folder in it, once, and nothing is mailed", async () => {
  const host = await started("'folder' => 'KEPT'");
  const sent = form({ client_key: "ab".repeat(16) }, [["photo[]", drive, "a.jpg"]]);
  const [first, second] = [await post(host, sent), await post(host, sent)];
  assert.equal(first.json.reference, second.json.reference);
  const files = await host.files();
  assert.deepEqual(Object.keys(files), [first.json.reference]);
  const kept = files[first.json.reference];
  assert.deepEqual(Object.keys(kept).sort(), ["enquiry.txt", "photo-1.jpg"]);
  assert.ok(kept["photo-1.jpg"].equals(drive));
  assert.match(kept["enquiry.txt"].toString(), /Invented Homeowner/);
  assert.deepEqual(await host.mails(), []);
});

test("a mail program that refuses is not an enquiry that arrived", async () => {
  const host = await started("", { failing: true });
  const answer = await post(host, form());
  assert.equal(answer.status, 502);
  assert.match(answer.json.error, /could not be sent/);
});

test("only the websites that are named may post from elsewhere", async () => {
  const host = await started("'origins' => ['https://form.invalid']");
  const own = new URL(host.address).host;
  const ask = (origin, accept = "*/*") => fetch(host.address, { method: "POST", body: form(), headers: { origin, accept } });
  for (const origin of ["https://form.invalid", `http://${own}`, `https://www.${own}`]) {
    const answer = await ask(origin);
    assert.equal(answer.status, 201, origin);
    assert.equal(answer.headers.get("access-control-allow-origin"), origin, "the page reads that it has arrived");
  }
  assert.equal((await host.mails()).length, 3);
  const refused = await ask("https://other.invalid");
  assert.equal(refused.status, 403);
  assert.equal(refused.headers.get("access-control-allow-origin"), "https://other.invalid", "the page can say why");
  assert.match((await refused.json()).error, /name it in `origins`/);
  assert.equal((await host.mails()).length, 3, "it is not mailed again and again while nobody can read the answer");
  // A plain form needs to read nothing: its browser shows the page.
  assert.equal((await ask("https://other.invalid", "text/html")).status, 201);
});
