// What few need is fetched when somebody does.
export const elsewhere = async (does, ...given) => (await import("./elsewhere.js"))[does](...given);
