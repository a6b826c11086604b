// How long the page waits for its answers, over HTTP: a measure to be read on a quiet machine, not a test. On a release build:
//   FINGERWAY_PROGRAM=build/release/fingerway node measure.mjs [NOTES]
import { longScore, serve } from './browser.mjs';

const wanted = Number(process.argv[2] ?? 400);
const times = 15;
const begun = performance.now();
const server = await serve();
console.log(`start: ${Math.round(performance.now() - begun)} ms`);

/** @returns {Promise<any>} */
async function ask(where, body) {
  const text = typeof body === 'string';
  const response = await fetch(server.address + where, { method: 'POST', headers: { 'Content-Type': text ? 'application/octet-stream' : 'application/json' }, body: text ? body : JSON.stringify(body) });
  const answer = await response.text();
  if (!response.ok) throw new Error(answer);
  return JSON.parse(answer);
}

/** The median and the longest of several; `call` is given the number of the time. */
async function measured(what, call) {
  const all = [];
  for (let i = 0; i < times; ++i) {
    const from = performance.now();
    await call(i);
    all.push(performance.now() - from);
  }
  all.sort((a, b) => a - b);
  console.log(`${what}: ${Math.round(all[Math.floor(times / 2)])} ms, at most ${Math.round(all.at(-1))} ms`);
}

const brought = await ask('/api/scores?name=measured.musicxml', longScore(wanted));
const base = { score: brought.score, part: brought.parts[0].id, instrument: 'bassoon', level: 'amateur' };
const first = performance.now();
let plan = await ask('/api/plan', base);
console.log(`first plan of ${plan.passage.notes.length} notes: ${Math.round(performance.now() - first)} ms, ${Math.round(JSON.stringify(plan).length / plan.passage.notes.length)} bytes a note`);
const free = plan.sides[0].notes.flatMap((n, i) => (n.choices > 1 ? [i] : []));
const pins = [];
for (let i = 0; pins.length < times && i < free.length; i += 2) {
  const { options } = await ask('/api/note', { plan: plan.plan, note: free[i], most: 3 });
  if (options[1]?.pin) pins.push({ note: free[i], ...options[1].pin, whole: true });
}
await measured('plan after a pin', async (i) => { plan = await ask('/api/plan', { ...base, choices: { pins: [pins[i % pins.length]], bans: [], holds: [] } }); });
await measured('a note opened', (i) => ask('/api/note', { plan: plan.plan, note: free[(i * 3) % free.length] }));
await measured('lanes of a system', (i) => ask('/api/lanes', { plan: plan.plan, spans: [{ first: i * 10, last: i * 10 + 15, width: 900 }] }));
await measured('the part with its marks', () => ask('/api/engraving', { plan: plan.plan }));
await server.stop();
