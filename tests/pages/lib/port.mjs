// A free port for a server that can't choose one itself.
import { createServer } from "node:net";

/** A port of 127.0.0.1 that was free a moment ago. */
export function freePort() {
  return new Promise((settle, fail) => {
    const server = createServer().once("error", fail);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => settle(port));
    });
  });
}
