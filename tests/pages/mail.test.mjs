// Every enquiry reaches the installer by mail, through a real mail server that takes it, refuses it, is slow, breaks off or is away.
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { CERTIFICATE, LOGIN, mailServer } from "./lib/mail-server.mjs";
import { presurvey } from "./lib/program.mjs";
import { serve } from "./lib/serve.mjs";

const SETUP = JSON.parse(await readFile(new URL("../../src/model/config/demo-setup.json", import.meta.url), "utf8"));
const WITHIN = 120_000; // in milliseconds; waits between tries are 5, 10 and 20 seconds

const folder = await mkdtemp(join(tmpdir(), "presurvey-mail-"));
const running = [];
const kept = (one) => (running.push(one), one);
after(async () => {
  await Promise.all(running.map((one) => one.stop()));
  await rm(folder, { recursive: true, force: true });
});

let files = 0;
async function setupFile(more) {
  const file = join(folder, `setup-${files++}.json`);
  await writeFile(file, JSON.stringify({ ...SETUP, ...more }, null, 1));
  return file;
}

/** A service that mails by `server`; `data` names the folder of one before. */
async function serving(server, { data, more = {}, env = {} } = {}) {
  const setup = await setupFile({ mail: server.setup, ...more });
  return kept(await serve({ setup, data: data ?? (await mkdtemp(join(folder, "data-"))), env }));
}

const server = async (options) => kept(await mailServer(options));

async function send(service, fields = {}) {
  const form = new FormData();
  const all = { name: "Invented Homeowner", telephone: "01632 960 123", email: "person@example.invalid", postcode: "ZZ1 1AA", ...fields };
  for (const [name, value] of Object.entries(all)) form.append(name, value);
  const answer = await fetch(`${service.origin}/api/enquiries`, { method: "POST", body: form, headers: { accept: "application/json" } });
  const receipt = await answer.json();
  assert.equal(answer.status, 201, JSON.stringify(receipt));
  return receipt.reference;
}

async function until(holds, what) {
  for (const late = Date.now() + WITHIN; ; await new Promise((wait) => setTimeout(wait, 100))) {
    const found = await holds();
    if (found) return found;
    if (Date.now() > late) throw new Error(`not within ${WITHIN} ms: ${what}`);
  }
}

const cookies = new Map();
async function signIn(service) {
  const answer = await fetch(`${service.origin}/api/session`, {
    method: "POST",
    headers: { "x-presurvey": "1" },
    body: JSON.stringify({ password: service.password }),
  });
  return answer.headers.getSetCookie().map((line) => line.split(";")[0]).join("; ");
}

async function outbox(service) {
  if (!cookies.has(service)) cookies.set(service, await signIn(service));
  const cookie = cookies.get(service);
  return (await fetch(`${service.origin}/api/installer/outbox`, { headers: { cookie } })).json();
}

const allSent = (service) => until(async () => (await outbox(service)).waiting === 0, "all is sent");
const ids = (mails) => mails.map((mail) => mail.headers["message-id"]);
const subjects = (mails) => mails.map((mail) => mail.headers.subject).sort();

test("each enquiry is told once, with all that is needed and nothing that a stranger could steer", async () => {
  const host = await server();
  const service = await serving(host);
  const first = await send(service, { "hazard[]": "smoke", "hazard-when": "now", note: "two\r\nlines – “so”\r\n.\r\nBcc: c@example.invalid" });
  await until(() => host.handed.length === 1, "the first mail");
  const [mail] = host.handed;
  assert.deepEqual(mail.envelope.rcptTo.map((to) => to.address), ["enquiries@installer.invalid"]);
  assert.equal(mail.envelope.mailFrom.address, "form@installer.invalid");
  const { headers } = mail;
  assert.equal(headers.subject, `Hazard noticed, ZZ1 (${first})`);
  assert.equal(headers.from, "form@installer.invalid");
  assert.equal(headers.to, "enquiries@installer.invalid");
  assert.equal(headers["reply-to"], "person@example.invalid");
  assert.equal(headers["auto-submitted"], "auto-generated");
  assert.match(headers["message-id"], /^<[0-9a-f]{32}@installer\.invalid>$/);
  const known = ["from", "to", "subject", "message-id", "auto-submitted", "date", "reply-to", "mime-version", "content-type"];
  assert.deepEqual(Object.keys(headers).sort(), known.sort());
  const lines = mail.text.split("\n");
  assert.match(lines[0], /^Look first: Hazard noticed/);
  assert.match(lines[1], /^ZZ1 1AA · /);
  assert.equal(lines[2], "Invented Homeowner · 01632 960 123");
  assert.match(lines[3], /^Best reached: /);
  assert.match(lines[4], new RegExp(`^${first}, no photos, received `));
  assert.equal(lines[5], "");
  assert.deepEqual(Object.keys(mail.attached), ["enquiry.txt", "enquiry.json"]);
  const all = mail.attached["enquiry.txt"].toString();
  for (const part of ["Name: Invented Homeowner", "lines – “so”\n.\nBcc: c@example.invalid", "- What is the postcode? ZZ1 1AA"]) {
    assert.ok(all.replaceAll("\r", "").includes(part), `${part} in ${all}`);
  }
  const record = mail.attached["enquiry.json"].toString();
  assert.equal(JSON.parse(record).payload.contact.telephone, "01632 960 123");
  assert.ok(JSON.parse(await presurvey(["assess", "-"], record)).flags.some((flag) => flag.code === "hazard-seen"));

  const others = [];
  for (const [name, email] of [
    ["A\r\nBcc: c@example.invalid", ""],
    ["=?utf-8?q?B?=", "not an address"],
    ["Ä “B” <c@example.invalid>", "a@example.invalid, b@example.invalid"],
  ]) {
    others.push(await send(service, { name, email }));
  }
  await allSent(service);
  assert.equal(host.handed.length, 4);
  for (const other of host.handed.slice(1)) {
    assert.deepEqual(Object.keys(other.headers).sort(), known.filter((name) => name !== "reply-to").sort(), other.raw);
    assert.equal(other.envelope.rcptTo.length, 1);
    assert.match(other.headers.subject, /^[\w ,]+, ZZ1 \(.{9}\)$/);
    assert.match(other.text, /No e-mail address was given that can be answered/);
  }
  // Nothing is told again after a start; a new enquiry shows that the outbox was gone through.
  await service.stop();
  const next = await serving(host, { data: service.data });
  const last = await send(next, { name: "Another" });
  await allSent(next);
  assert.equal(host.handed.length, 5);
  assert.equal(new Set(ids(host.handed)).size, 5);
  assert.ok(host.handed[4].headers.subject.includes(last));
  assert.deepEqual(subjects(host.handed.slice(1, 4)).map((subject) => subject.slice(-10, -1)).sort(), others.sort());
});

test("refused for now it is sent again under the same Message-ID, then no more", async () => {
  const host = await server({ behave: (number) => (number === 0 ? { code: 451 } : undefined) });
  const service = await serving(host);
  const reference = await send(service);
  const { rows } = await until(async () => (await outbox(service)).rows[0]?.failure && outbox(service), "why it was not sent");
  assert.match(rows[0].failure, /localhost refuses the mail: .*451.*as the test says/);
  assert.deepEqual([rows[0].reference, rows[0].tries], [reference, 1]);
  await allSent(service);
  assert.equal(host.handed.length, 2);
  assert.equal(host.handed[1].raw, host.handed[0].raw, "the same mail to the letter");
  assert.doesNotMatch(service.output(), /Homeowner|01632|person@/, "the log names nobody");
});

test("refused for good it stays, says why, and is sent after a start with what was put right", async () => {
  const host = await server({ behave: (number) => (number === 0 ? { code: 550 } : undefined) });
  const service = await serving(host);
  const reference = await send(service);
  const found = await until(async () => (await outbox(service)).rows[0]?.failure && outbox(service), "why it was not sent");
  assert.match(found.rows[0].failure, /550.*look at `mail\.from`, `mail_to`/);
  const wait = Date.parse(found.rows[0].due) - Date.parse(found.rows[0].made);
  assert.ok(wait >= 3_600_000, `tried again in an hour, not after ${wait} ms`);
  const listed = await presurvey(["outbox", "--data", service.data]);
  assert.match(listed, new RegExp(`^${reference}: mail, of .*, waiting, tried 1 times, next .*550.*\n1 waiting, 0 given up\\.\n$`));
  await service.stop();
  const next = await serving(host, { data: service.data });
  await allSent(next);
  assert.equal(host.handed.length, 2);
  assert.equal(new Set(ids(host.handed)).size, 1);
  assert.equal(await presurvey(["outbox", "--data", service.data, "--again"]), "0 waiting, 0 given up.\n");
});

test("a connection that breaks off after the mail was handed over makes a repeat that is known as one", async () => {
  const host = await server({ behave: (number) => (number === 0 ? "drop" : undefined) });
  const service = await serving(host);
  await send(service);
  await until(() => host.handed.length === 2, "the repeat");
  await allSent(service);
  assert.equal(host.handed.length, 2);
  assert.equal(new Set(ids(host.handed)).size, 1);
});

test("a server that is away and comes back is told all of it, once each", async () => {
  const away = await mailServer();
  await away.stop();
  const service = await serving(away);
  const told = [await send(service), await send(service, { name: "Another" })];
  await until(async () => (await outbox(service)).rows.every((row) => /does not answer on port/.test(row.failure)), "both were tried");
  const host = await server({ port: away.port });
  await allSent(service);
  assert.deepEqual(host.handed.map((mail) => mail.headers.subject.slice(-10, -1)).sort(), told.sort());
});

test("a slow server holds up nobody, and told to stop the service lets it answer", async () => {
  let release;
  const held = new Promise((open) => (release = open));
  const host = await server({ behave: () => held });
  const service = await serving(host);
  await send(service);
  await until(() => host.handed.length === 1, "the mail is handed over");
  await send(service, { name: "Another" }); // is taken while the first one waits for its answer
  const stopped = service.stop();
  release();
  await stopped;
  const next = await serving(host, { data: service.data });
  await allSent(next);
  assert.equal(host.handed.length, 2);
  assert.equal(new Set(ids(host.handed)).size, 2, "each once");
});

test("a mail server that hangs after taking a mail holds up no other mail", async () => {
  const never = new Promise(() => {});
  const host = await server({ behave: (number) => (number === 0 ? never : undefined) });
  const service = await serving(host);
  await send(service);
  await until(() => host.handed.length === 1, "the first mail hangs");
  const second = await send(service, { name: "Another" });
  await until(() => host.handed.length === 2, "the second goes beside it");
  await until(async () => (await outbox(service)).waiting === 1, "and is marked as sent");
  assert.ok(host.handed[1].headers.subject.includes(second));
});

test("a danger that is reported later is mailed at once, what else is added after a while", async () => {
  const host = await server();
  const service = await serving(host);
  const reference = await send(service, { "hazard[]": "none" });
  await allSent(service);
  const cookie = cookies.get(service);
  const { enquiries } = await (await fetch(`${service.origin}/api/installer/enquiries`, { headers: { cookie } })).json();
  const key = enquiries.find((one) => one.reference === reference).client_key;
  const asked = await fetch(`${service.origin}/api/installer/enquiries/${key}/link`, {
    method: "POST",
    headers: { cookie, "x-presurvey": "1" },
    body: JSON.stringify({ questions: ["protection"] }),
  });
  const [, token] = (await asked.json()).fragment.split(".");
  const add = async (answers) => {
    const headers = { authorization: `Bearer ${token}`, "content-type": "application/json" };
    const body = JSON.stringify({ answers });
    const answer = await fetch(`${service.origin}/api/enquiries/${key}/additions`, { method: "POST", headers, body });
    assert.equal(answer.status, 200, await answer.text());
  };
  await add({ board: { protection: "breakers" } });
  const { rows } = await outbox(service);
  assert.deepEqual(rows.map(({ what, tries }) => [what, tries]), [["additions", 0]]);
  const wait = Date.parse(rows[0].due) - Date.parse(rows[0].made);
  assert.equal(wait, 600_000, "gathered for ten minutes");
  await add({ hazard: { signs: ["smoke"] } });
  await until(() => host.handed.length === 2, "the mail of the danger");
  const [first, second] = host.handed;
  const raw = second.raw.replaceAll("\r", "");
  assert.match(raw, new RegExp(`^Subject: Danger reported, ZZ1 \\(${reference}\\)$`, "m"));
  assert.match(raw, new RegExp(`^In-Reply-To: ${first.headers["message-id"]}$`, "m"));
  assert.match(raw, new RegExp(`^Added to ${reference} by the homeowner:$`, "m"));
  assert.match(raw, /^- A danger was reported\. Ring first\.$/m);
  await allSent(service);
  assert.equal(host.handed.length, 2, "one mail of both");
});

test("after a power cut in the middle it is sent again, under the same Message-ID", async () => {
  let release;
  const held = new Promise((open) => (release = open));
  const host = await server({ behave: (number) => (number === 0 ? held : undefined) });
  const service = await serving(host);
  await send(service);
  await until(() => host.handed.length === 1, "the mail is handed over");
  await service.kill();
  release();
  const next = await serving(host, { data: service.data });
  await allSent(next);
  assert.equal(host.handed.length, 2);
  assert.equal(new Set(ids(host.handed)).size, 1);
});

for (const encryption of ["starttls", "tls"]) {
  test(`with ${encryption} and a login it is sent encrypted, the password from the environment`, async () => {
    const host = await server({ encryption, login: true });
    const env = { PRESURVEY_MAIL_PASSWORD: LOGIN.password, SSL_CERT_FILE: CERTIFICATE };
    const service = await serving(host, { env });
    await send(service);
    await allSent(service);
    assert.deepEqual(host.handed.map(({ encrypted, user }) => [encrypted, user]), [[true, LOGIN.user]]);
  });
}

/** What `presurvey mail-test` says, and its exit code. */
async function mailTest(mail, { env = {}, more = {} } = {}) {
  const setup = await setupFile({ mail, ...more });
  const before = Object.keys(env).map((name) => [name, process.env[name]]);
  Object.assign(process.env, env);
  try {
    return { code: 0, said: await presurvey(["mail-test", "--setup", setup]) };
  } catch (error) {
    return { code: error.code, said: error.stderr };
  } finally {
    for (const [name, value] of before) value === undefined ? delete process.env[name] : (process.env[name] = value);
  }
}

test("a test mail arrives, or it is said plainly what is wrong", async () => {
  const plain = await server();
  const good = await mailTest(plain.setup);
  assert.equal(good.code, 0, good.said);
  assert.match(good.said, /^localhost took a test mail to enquiries@installer\.invalid: 250 /);
  assert.equal(plain.handed.length, 1);
  assert.match(plain.handed[0].raw, /\r\nSubject: Test mail from presurvey\r\n/);

  const closed = createServer();
  await new Promise((ready) => closed.listen(0, "127.0.0.1", ready));
  const { port } = closed.address();
  await new Promise((done) => closed.close(done));
  const [starttls, tls] = await Promise.all([server({ encryption: "starttls", login: true }), server({ encryption: "tls", login: true })]);
  const refusing = await server({ behave: () => ({ code: 554 }) });
  const believed = { SSL_CERT_FILE: CERTIFICATE };
  const signed = { ...believed, PRESURVEY_MAIL_PASSWORD: LOGIN.password };
  const wrong = { ...believed, PRESURVEY_MAIL_PASSWORD: "wrong" };
  for (const [what, mail, env, says, code = 1] of [
    ["no such name", { ...plain.setup, server: "nowhere.invalid", encryption: "starttls" }, {}, /there is no mail server named nowhere\.invalid: /],
    ["a closed port", { ...plain.setup, port }, {}, new RegExp(`localhost does not answer on port ${port}: .*refused`, "i")],
    ["a certificate of nobody's", tls.setup, { PRESURVEY_MAIL_PASSWORD: LOGIN.password }, /can't be encrypted: .*certificate/i],
    ["a certificate of nobody's, later", starttls.setup, { PRESURVEY_MAIL_PASSWORD: LOGIN.password }, /can't be encrypted: .*certificate/i],
    ["another name than the certificate's", { ...tls.setup, server: "127.0.0.1" }, signed, /can't be encrypted: .*not valid for name.*the name in `mail\.server`/],
    ["tls where starttls is meant", { ...starttls.setup, encryption: "tls" }, signed, /can't be encrypted: .*"starttls" is usual on port 587/],
    ["starttls where nothing is offered", { ...plain.setup, encryption: "starttls" }, {}, /can't be encrypted: .*STARTTLS/],
    ["a wrong password", tls.setup, wrong, /localhost refuses the login as "invented-user": .*535/],
    ["no password", tls.setup, believed, /`mail\.user` has no password: set PRESURVEY_MAIL_PASSWORD/],
    ["no login where one is wanted", { ...tls.setup, user: undefined }, believed, /refuses the mail: .*530.*whether the server wants a login/],
    ["a login where none is offered", { ...plain.setup, user: "somebody", password: "x" }, {}, /refuses the login as "somebody"/],
    ["a mail that is refused", refusing.setup, {}, /localhost refuses the mail: .*554.*as the test says/],
    ["no server in the setup", undefined, {}, /setup-\d+\.json: `mail`: nothing is not allowed/, 2],
    ["no encryption over a network", { ...plain.setup, server: "smtp.example.invalid" }, {}, /`mail\.encryption`: "none" is not allowed/, 2],
    ["two addresses", { ...plain.setup, from: "a@b.invalid, c@d.invalid" }, {}, /`mail\.from`: .*one address alone/, 2],
    ["a field that is none", { ...plain.setup, host: "x" }, {}, /setup-\d+\.json: .*line \d+.*host/, 2],
  ]) {
    const { code: given, said } = await mailTest(mail, { env });
    assert.match(said, says, what);
    assert.equal(given, code, `${what}: ${said}`);
    assert.ok(!said.includes(LOGIN.password), what);
  }
});

test("a slow greeting, as of a port that waits for encryption, is given up", { timeout: 120_000 }, async () => {
  const silent = createServer(() => {});
  await new Promise((ready) => silent.listen(0, "127.0.0.1", ready));
  const { port } = silent.address();
  const { code, said } = await mailTest({ server: "localhost", port, encryption: "starttls", from: "form@installer.invalid" });
  silent.close();
  assert.match(said, new RegExp(`localhost does not answer on port ${port}: nothing came for 30 seconds; it may wait for encryption`));
  assert.equal(code, 1);
});

test("a webhook never leads to this machine, and says so", async () => {
  let knocked = 0;
  const near = createServer(() => knocked++);
  await new Promise((ready) => near.listen(0, "127.0.0.1", ready));
  const secret = `whsec_${"A".repeat(32)}`;
  const url = `https://localhost:${near.address().port}/`;
  const host = await server();
  const service = await serving(host, { more: { webhooks: [{ url, secret }] } });
  await send(service);
  const row = await until(async () => (await outbox(service)).rows.find((one) => one.way === "webhook" && one.failure), "the webhook was tried");
  assert.match(row.failure, /localhost is at (127\.0\.0\.1|::1), which is no public address/);
  await until(() => host.handed.length === 1, "the mail does not wait for it");
  assert.equal(knocked, 0);
  assert.doesNotMatch(service.output(), /whsec_/);
  near.close();
});
