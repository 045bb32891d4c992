
// Reports a failure of the program on the page (a panic ends in a trap), whatever called the function that failed: an event, a timer or a
// promise. The build puts this here.
function guarded(exports) {
  let last;
  const minding = (work) => (...given) => {
    try {
      return work(...given);
    } catch (fault) {
      // A failure that passes through several functions is reported once.
      if (fault instanceof WebAssembly.RuntimeError && fault !== last) {
        last = fault;
        try {
          exports.say_how_to_go_on();
        } catch {
          // The first failure still reaches the console.
        }
      }
      throw fault;
    }
  };
  return Object.fromEntries(Object.entries(exports).map(([name, part]) => [name, typeof part === "function" ? minding(part) : part]));
}
