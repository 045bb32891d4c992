// The figures as a table for people: what was wished, what was found, and whether the one meets the other.

const ms = (value) => (value === undefined ? "–" : `${Math.round(value)} ms`);
const times = (value) => `${value.toFixed(2)} ×`;
const kb = (bytes) => `${Math.round(bytes / 1e3)} kB`;
const mb = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;

/** One row: what, the wish in words, what was found in words, and whether it holds. */
function goals({ start, answers, journey, memory }) {
  const { plain, own } = start;
  const [second, last] = [memory.again[1], memory.again.at(-1)]; // the first time fills caches that stay
  const most = Math.max(...memory.again.map((time) => time.all));
  const grown = (what) => last[what] - second[what];
  const growth = `${grown("nodes")} nodes, ${grown("listeners")} listeners, ${kb(grown("wasm"))} of WebAssembly, ${kb(grown("script") + grown("workers"))} of script and workers`;
  // What the browser compiles of a script lies in the same heap: some ten kilobytes at each time, ever less.
  const same = ["nodes", "listeners", "wasm"].every((what) => grown(what) === 0) && grown("all") < 0.05 * second.all;
  const row = (what, wish, found, well) => ({ what, wish, found, well });
  const ratio = (what, wish, limit, of, to) => row(what, wish, `${times(of / to)} (${ms(of)} against ${ms(to)})`, of / to <= limit);
  const later = (how, { question }) =>
    row(
      `first question, embedded, ${how}: later than the plain page by`,
      "one round trip, 150 ms",
      ms(question - plain.question),
      question - plain.question <= 150,
    );
  return [
    ratio("first question, page of our own, against the plain page", "≤ 1.05 ×", 1.05, own.question, plain.question),
    ratio("first answer in effect, page of our own, against the plain page", "≤ 1.05 ×", 1.05, own.answer, plain.answer),
    later("files copied to the site", start.copied),
    later("from the service's own origin", start.elsewhere),
    ratio("program live, page of our own, against its first question", "≤ 2.5 ×", 2.5, own.live, own.question),
    ratio("dependent question, first screen, median", "≤ 1.2 ×", 1.2, answers.script.median, answers.plain.median),
    ratio("dependent question, first screen, 98 %", "≤ 1.2 ×", 1.2, answers.script.most, answers.plain.most),
    ratio("dependent question, program, median", "≤ 1.2 ×", 1.2, answers.program.median, answers.plain.median),
    ratio("dependent question, program, 98 %", "≤ 1.2 ×", 1.2, answers.program.most, answers.plain.most),
    row("longest task of the hand-over", "< 150 ms", longest(journey.longest.handOver), journey.longest.handOver < 150),
    row("longest task after it", "≤ 50 ms", longest(journey.longest.after), journey.longest.after <= 50),
    row("layout shift, start and hand-over", "0", journey.shiftAtStart.toFixed(4), journey.shiftAtStart === 0),
    row("layout shift at the first question, embedded", "0", start.elsewhere.shift.toFixed(4), start.elsewhere.shift === 0),
    row("layout shift, whole journey", "–", journey.shift.toFixed(4), true),
    row("script and WebAssembly memory without photos", "< 24 MB", mb(most), most < 24e6),
    row("growth from the second to the tenth time through", "none", growth, same),
  ];
}

/** Browsers tell only of tasks over fifty milliseconds. */
const longest = (duration) => (duration === 0 ? "none over 50 ms" : ms(duration));

export function asTable(results) {
  const { machine, conditions, start, journey, memory, plain_script_lines: lines } = results;
  const rows = goals(results).map(({ what, wish, found, well }) => `| ${what} | ${wish} | ${found} | ${well ? "yes" : "**no**"} |`);
  const each = Object.entries(start).map(
    ([name, one]) => `| ${name} | ${ms(one.paint)} | ${ms(one.question)} | ${ms(one.answer)} | ${ms(one.live)} | ${one.shift.toFixed(4)} |`,
  );
  const tasks = Object.entries(journey.tasks).flatMap(([part, list]) =>
    list.map(({ duration, blockingDuration, by }) => `| ${part} | ${ms(duration)} | ${ms(blockingDuration)} | ${by} |`),
  );
  const held = (list, how) =>
    list.map(({ script, wasm, workers, all, nodes, listeners }, at) =>
      `| ${how} ${at + 1} | ${[script, wasm, workers, all].map(mb).join(" | ")} | ${nodes} | ${listeners} |`);
  const rounds = [...held(memory.again, "time"), ...held(memory.anew, "new form")];
  return `# How the form starts and answers

${machine.processor}, ${machine.cores} cores, ${machine.browser}, Node ${machine.node}, ${machine.compiler}

${conditions}. Written by \`cargo xtask measure\`. The plain page is the same first screen in its own HTML, with a linked sheet
and a script of ${lines} lines, from the same server in the same run.

| what | wished | found | holds |
| --- | --- | --- | --- |
${rows.join("\n")}

## Starts

| page | first paint | first question | first answer in effect | program live | layout shift |
| --- | ---: | ---: | ---: | ---: | ---: |
${each.join("\n")}

## Frames over fifty milliseconds in a journey

| part | lasted | of it blocking | by |
| --- | ---: | ---: | --- |
${tasks.join("\n")}

## Memory

Ten times through one form, then three times through a new form each, in the place of the one before. (The drawing library never
lets go of the listeners of a root that is gone: each removed form leaves those and its empty place behind.)

| after | script | WebAssembly | workers | all | nodes | listeners |
| --- | ---: | ---: | ---: | ---: | ---: | ---: |
${rounds.join("\n")}
`;
}
