/**
 * Loads the engine. Without its program's address or bytes it is fetched from beside this module.
 *
 * What it gives back assesses one home. It throws where answers or config are not allowed, saying where and what may be.
 */
export function load(program?: URL | BufferSource | WebAssembly.Module): Promise<(answers: Answers, config: Config) => Assessment>;

