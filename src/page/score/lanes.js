// What this part answers: the server's drawings of the finger lanes, many stretches in one request.
import { state } from '../base/state.js';
import { ofPlan } from '../base/work.js';

/** @typedef {{first: number, last: number, width: number, anchors: [number, number][]}} Span */

/** @type {{span: Span, done: (svg: string) => void, failed: (fault: unknown) => void}[]} */
let waiting = [];

/** @param {Span[]} spans @returns {Promise<string[]>} */
export function lanesOf(spans) {
  if (!state.plan) return Promise.resolve(spans.map(() => ''));
  return Promise.all(spans.map((span) => new Promise((done, failed) => {
    if (waiting.length === 0) setTimeout(send, 0);
    waiting.push({ span, done, failed });
  })));
}

async function send() {
  const asked = waiting;
  waiting = [];
  // A few at a time, so that what is in sight comes first.
  for (let from = 0; from < asked.length; from += 8) {
    const some = asked.slice(from, from + 8);
    try {
      const { svg } = await ofPlan('/api/lanes', { spans: some.map((a) => a.span) });
      some.forEach((a, i) => a.done(svg[i] ?? ''));
    } catch (fault) {
      for (const a of some) a.failed(fault);
    }
  }
}
