// What this part answers: the engraver's worker as promises.

/** @type {Worker | undefined} */
let worker;
let count = 0;
/** @type {Map<number, {done: (answer: any) => void, failed: (fault: Error) => void}>} */
const waiting = new Map();

/** @param {Record<string, unknown>} message @returns {Promise<any>} */
function ask(message) {
  if (!worker) {
    worker = new Worker('/page/score/engraver_worker.js', { type: 'module' });
    worker.addEventListener('message', ({ data }) => {
      const asked = waiting.get(data.number);
      waiting.delete(data.number);
      if (data.fault) asked?.failed(new Error(data.fault));
      else asked?.done(data.answer);
    });
    worker.addEventListener('error', (event) => {
      for (const asked of waiting.values()) asked.failed(new Error(event.message || 'the engraver did not start'));
      waiting.clear();
    });
  }
  const number = ++count;
  const answer = new Promise((done, failed) => waiting.set(number, { done, failed }));
  worker.postMessage({ ...message, number });
  return answer;
}

/** Makes the engraver ready before there is a score, as that takes a second. */
export const startEngraver = () => ask({ what: 'start' });

/**
 * Lays a score out for a width in pixels: how many systems, and on which one each element stands.
 * @param {string} musicxml @param {number} width @param {number} scale @param {string[]} ids
 * @returns {Promise<{load: number, pages: number, pageOf: number[]}>}
 */
export const layOut = (musicxml, width, scale, ids) => ask({ what: 'load', musicxml, width, scale, ids });

/** The drawing of one system; null when another score was laid out since. @param {number} load @param {number} page @returns {Promise<string | null>} */
export const drawSystem = (load, page) => ask({ what: 'draw', load, page });
