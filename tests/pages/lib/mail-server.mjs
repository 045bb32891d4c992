// A real mail server (smtp-server from npm) on this machine that does as a test says, and a reader of what it took.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { SMTPServer } from "smtp-server";
import { readMail } from "./receiver.mjs";

const beside = (name) => fileURLToPath(new URL(`./mail-server/${name}`, import.meta.url));

/** The server's certificate, for `localhost`; who believes the file SSL_CERT_FILE names believes it. Its key opens nothing but these tests. */
export const CERTIFICATE = beside("certificate.pem");
export const LOGIN = { user: "invented-user", password: "an invented mail password" };

/**
 * Starts a mail server. `behave` is asked, for each mail that was handed over whole, what to answer; it is given the mail's number, from 0:
 * nothing to take it, `{ code }` to refuse it, `"drop"` to break off without a word, or a promise of one of these to be slow. `encryption`
 * is `none`, `starttls` or `tls`; with `login` it takes mail from LOGIN alone; `port` names a port of before.
 *
 * Returns `{ port, setup, handed, stop() }`: `setup` is what a setup's `mail` says of it, `handed` all mails, read if they have parts, also
 * those refused.
 */
export async function mailServer({ behave = () => undefined, encryption = "none", login = false, port = 0 } = {}) {
  const handed = [];
  const server = new SMTPServer({
    secure: encryption === "tls",
    hideSTARTTLS: encryption !== "starttls",
    disabledCommands: login ? [] : ["AUTH"],
    authOptional: !login,
    key: readFileSync(beside("key.pem")),
    cert: readFileSync(CERTIFICATE),
    onAuth: ({ username, password }, _, done) =>
      username === LOGIN.user && password === LOGIN.password ? done(null, { user: username }) : done(new Error("no such user or password")),
    async onData(stream, session, done) {
      const chunks = [];
      for await (const chunk of stream) chunks.push(chunk);
      const raw = Buffer.concat(chunks).toString("utf8");
      handed.push({ raw, envelope: session.envelope, encrypted: session.secure, user: session.user, ...(/boundary=/.test(raw) && readMail(raw)) });
      const answer = await behave(handed.length - 1);
      if (answer === "drop") {
        for (const connection of server.connections) if (connection.id === session.id) connection._socket.destroy();
      } else {
        done(answer && Object.assign(new Error("as the test says"), { responseCode: answer.code }));
      }
    },
  });
  server.on("error", () => {}); // a client that breaks off is part of a test
  await new Promise((ready, fail) => (server.once("error", fail), server.listen(port, "127.0.0.1", ready)));
  const own = server.server.address().port;
  return {
    port: own,
    setup: { server: "localhost", port: own, encryption, from: "form@installer.invalid", ...(login && { user: LOGIN.user }) },
    handed,
    stop: () => {
      for (const connection of server.connections) connection._socket.destroy();
      return new Promise((done) => server.close(done));
    },
  };
}
