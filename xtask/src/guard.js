
// A fault of the program (a panic ends in a trap) is said on the page, whatever called the function that failed: an event, a timer, a
// promise. Put here by the build.
function guarded(exports) {
  let last;
  const minding = (work) => (...given) => {
    try {
      return work(...given);
    } catch (fault) {
      // One that passes through several functions is said once.
      if (fault instanceof WebAssembly.RuntimeError && fault !== last) {
        last = fault;
        try {
          exports.say_how_to_go_on();
        } catch {
          // The console is told of the first.
        }
      }
      throw fault;
    }
  };
  return Object.fromEntries(Object.entries(exports).map(([name, part]) => [name, typeof part === "function" ? minding(part) : part]));
}
