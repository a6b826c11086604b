// What this part answers: the server's drawings of the finger lanes, many stretches in one request.
import { state } from '../base/state.js';
import { ofPlan } from '../base/work.js';

/** @typedef {{first: number, last: number, width: number, anchors: [number, number][]}} Span */

/** @typedef {import('../base/types.d.ts').Plan} Plan */

/** @type {{span: Span, plan: Plan, done: (svg: string) => void, failed: (fault: unknown) => void}[]} */
let waiting = [];

/** @param {Span[]} spans @returns {Promise<string[]>} */
export function lanesOf(spans) {
  const plan = state.plan;
  if (!plan) return Promise.resolve(spans.map(() => ''));
  return Promise.all(spans.map((span) => new Promise((done, failed) => {
    if (waiting.length === 0) setTimeout(send, 0);
    waiting.push({ span, plan, done, failed });
  })));
}

/** True when the notes are still those of the plan; the fingerings may be others. @param {Plan} plan */
function samePassage(plan) {
  const [then, now] = [plan.passage, state.plan?.passage];
  return then.notes.length === now?.notes.length && then.notes[0]?.bar === now.notes[0]?.bar;
}

async function send() {
  const asked = waiting.filter((a) => samePassage(a.plan) || a.done(''));
  waiting = [];
  // A few at a time, so that what is in sight comes first.
  for (let from = 0; from < asked.length; from += 8) {
    const some = asked.slice(from, from + 8).filter((a) => samePassage(a.plan) || a.done(''));
    if (some.length === 0) continue;
    try {
      const { svg } = await ofPlan('/api/lanes', { spans: some.map((a) => a.span) });
      some.forEach((a, i) => a.done(svg[i] ?? ''));
    } catch (fault) {
      for (const a of some) a.failed(fault);
    }
  }
}
