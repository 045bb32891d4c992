// The parts of W3C WebDriver that the tests need, over the two interfaces that browsers have: WebKit's driver program is reached over HTTP,
// Firefox directly over a socket (Marionette). Neither needs a package.
import { connect } from "node:net";

/** The key by which WebDriver marks an element reference. */
export const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";

// The commands used: each has a name for Firefox's socket, and a method and path for HTTP.
const COMMANDS = {
  Navigate: ["POST", "url"],
  Refresh: ["POST", "refresh"],
  SetWindowRect: ["POST", "window/rect"],
  ExecuteAsyncScript: ["POST", "execute/async"],
  ElementClick: ["POST", "element/ID/click"],
  ElementClear: ["POST", "element/ID/clear"],
  ElementSendKeys: ["POST", "element/ID/value"],
  PerformActions: ["POST", "actions"],
  TakeScreenshot: ["GET", "screenshot"],
  DeleteSession: ["DELETE", ""],
};

/** A command that the browser refused; `error` is WebDriver's error code. */
export class Refused extends Error {
  constructor(command, { error, message }) {
    super(`${command}: ${error}: ${message}`);
    this.error = error;
  }
}

/** How long a driver may take to begin a session, in milliseconds. On a busy machine WebKit's now and then never answers, and does the next time. */
const BEGINS = 60_000;

/** A session with a driver program that listens at `origin`. Returns `(command, parameters) => answer`. */
export async function overHttp(origin, capabilities) {
  const ask = async (name, method, path, body, signal) => {
    const answer = await fetch(`${origin}${path}`, { method, body: body && JSON.stringify(body), signal });
    const { value } = await answer.json();
    if (!answer.ok) throw new Refused(name, value);
    return value;
  };
  const begin = (signal) => ask("NewSession", "POST", "/session", { capabilities: { alwaysMatch: capabilities } }, signal);
  const { sessionId } = await begin(AbortSignal.timeout(BEGINS)).catch((error) => {
    if (error.name !== "TimeoutError") throw error;
    return begin();
  });
  return (name, parameters = {}) => {
    const [method, path] = COMMANDS[name];
    const tail = path && `/${path.replace("ID", parameters.id)}`;
    return ask(name, method, `/session/${sessionId}${tail}`, method === "POST" ? parameters : undefined);
  };
}

/** A session with Firefox over the socket on this port, where each message is its length, a colon, and JSON. */
export async function overSocket(port, capabilities) {
  const socket = connect(port, "127.0.0.1");
  const waiting = new Map();
  let unread = Buffer.alloc(0);
  socket.on("data", (chunk) => {
    unread = Buffer.concat([unread, chunk]);
    for (;;) {
      const colon = unread.indexOf(":");
      if (colon < 0) return;
      const end = colon + 1 + Number(unread.subarray(0, colon));
      if (unread.length < end) return;
      const message = JSON.parse(unread.subarray(colon + 1, end));
      unread = unread.subarray(end);
      if (!Array.isArray(message)) continue; // the greeting that Firefox sends first
      const [, id, error, answer] = message;
      const { name, settle, fail } = waiting.get(id);
      waiting.delete(id);
      if (error) fail(new Refused(name, error));
      else settle(answer);
    }
  });
  const gone = (error) => {
    for (const { name, fail } of waiting.values()) fail(new Error(`${name}: the browser is gone`, { cause: error }));
    waiting.clear();
  };
  socket.on("error", gone).on("close", gone);
  let last = 0;
  const ask = (name, parameters = {}) =>
    new Promise((settle, fail) => {
      last += 1;
      waiting.set(last, { name, settle, fail });
      const message = JSON.stringify([0, last, `WebDriver:${name}`, parameters]);
      socket.write(`${Buffer.byteLength(message)}:${message}`);
    });
  await ask("NewSession", { capabilities: { alwaysMatch: capabilities } });
  return async (name, parameters) => {
    const answer = await ask(name, parameters);
    if (name === "DeleteSession") socket.destroy();
    return answer && "value" in answer ? answer.value : answer;
  };
}
