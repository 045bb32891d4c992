// A bad connection to the real service: forwards everything, and cuts a connection after a number of bytes of a request's body.
import { createServer, request as ask } from "node:http";

/**
 * Starts a proxy before a service. `plan(request)` decides about each request: a number cuts the connection once that many bytes of its
 * body were forwarded ("after": all of the body is forwarded, and the connection is cut before the response comes back), `{ status, headers
 * }` is sent as a response in the service's place, and nothing lets the request through. `seen` lists the requests: method, path, and what
 * was done with each.
 */
export async function badLine(service, plan = () => undefined) {
  const target = new URL(service);
  const seen = [];
  const line = { plan, seen };
  const server = createServer((request, response) => {
    const what = line.plan(request);
    const entry = { method: request.method, path: request.url, what };
    seen.push(entry);
    if (typeof what === "object") {
      request.resume().once("end", () => response.writeHead(what.status, what.headers).end(what.body));
      return;
    }
    const headers = { ...request.headers, host: target.host, connection: "close" };
    const onward = ask({ host: target.hostname, port: target.port, method: request.method, path: request.url, headers });
    const cut = () => (onward.destroy(), request.socket.destroy());
    onward.once("error", () => request.socket.destroy());
    onward.once("response", (answer) => {
      entry.status = answer.statusCode;
      if (what === "after") return cut();
      response.writeHead(answer.statusCode, answer.headers);
      answer.pipe(response);
    });
    let left = typeof what === "number" ? what : Infinity;
    if (left === 0) onward.flushHeaders();
    request.on("data", (bytes) => {
      if (left === Infinity) return void onward.write(bytes);
      const part = bytes.subarray(0, left);
      left -= part.length;
      // The connection is cut only once these bytes were forwarded.
      onward.write(part, () => left === 0 && cut());
    });
    if (left === 0) request.once("data", cut).once("end", cut);
    request.once("end", () => left === Infinity && onward.end());
    request.once("error", () => onward.destroy());
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return {
    ...line,
    set plan(next) { line.plan = next; },
    origin: `http://127.0.0.1:${server.address().port}`,
    stop: () => new Promise((done) => (server.close(done), server.closeAllConnections())),
  };
}
