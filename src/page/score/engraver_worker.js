// What this part answers: MusicXML as drawn systems, one a page of the engraver's, away from the page's own thread.
// Messages in: {number, what: 'start'}, {number, what: 'load', musicxml, width, scale, ids} or {number, what: 'draw', page, load};
// out: {number, answer} or {number, fault}.

/** @type {any} */
let toolkit;
/** The number of the last load: drawings of an earlier one are told apart by it. */
let loaded = 0;

async function engraver() {
  if (toolkit) return toolkit;
  const folder = '/engraver/';
  const { default: create } = await import(folder + 'verovio-module.mjs');
  const { VerovioToolkit, enableLog, LOG_ERROR } = await import(folder + 'verovio.mjs');
  const made = await create();
  enableLog(LOG_ERROR, made);
  toolkit = new VerovioToolkit(made);
  return toolkit;
}

/** Note values in running text are drawn with signs every font has, as the engraver's own text font may not be loaded. */
const signs = { '\uE1D2': '𝅝', '\uECA2': '𝅝', '\uECA3': '𝅗𝅥', '\uECA5': '♩', '\uECA7': '♪', '\uECA9': '𝅘𝅥𝅯', '\uECB7': '.' };

/** What the page's policy refuses is taken out; its classes are in page.css. @param {string} svg */
function plain(svg) {
  return svg.replace(/<style[\s\S]*?<\/style>/g, '').replace(/ style="[^"]*"/g, '')
    .replace(/[\uE1D2\uECA2\uECA3\uECA5\uECA7\uECA9\uECB7]/g, (sign) => /** @type {any} */ (signs)[sign] ?? sign);
}

/** The engraver reckons marks in a narrower letter than the page's: with room on both sides they do not run into each other. @param {string} musicxml */
const roomy = (musicxml) => musicxml.replace(/(<fingering[^>]*>)([^<]+)(<\/fingering>)/g, '$1\u00A0\u00A0$2\u00A0\u00A0$3');

/** @param {{musicxml: string, width: number, scale: number, ids: string[], number: number}} message */
async function load({ musicxml, width, scale, ids, number }) {
  const tool = await engraver();
  tool.setOptions({
    pageWidth: Math.max(100, Math.round((width * 100) / scale)), pageHeight: 100, scale, adjustPageHeight: true, breaks: 'auto',
    header: 'none', footer: 'none', svgViewBox: true, svgRemoveXlink: true, svgAdditionalAttribute: ['fing@startid'], pageMarginTop: 30, pageMarginBottom: 20, pageMarginLeft: 0,
    pageMarginRight: 12, spacingLinear: 0.42, spacingNonLinear: 0.6, lyricSize: 4, justifyVertically: false, minLastJustification: 0.5 });
  if (!tool.loadData(roomy(musicxml))) throw new Error('the engraver does not read this score');
  loaded = number;
  const pages = pagesOf(tool.getMEI({ scoreBased: false }));
  return { load: number, pages: tool.getPageCount(), pageOf: ids.map((id) => pages.get(id) ?? 0) };
}

/**
 * The page of each element, read off the laid-out score at once: asked for one by one, the engraver searches from the first page on.
 * @param {string} laidOut
 */
function pagesOf(laidOut) {
  /** @type {Map<string, number>} */
  const pages = new Map();
  let page = 0;
  for (const [, id] of laidOut.matchAll(/<page |<note [^>]*?xml:id="([^"]+)"/g)) {
    if (id === undefined) ++page;
    else pages.set(id, page);
  }
  return pages;
}

/** @param {{page: number, load: number}} message */
async function draw({ page, load: wanted }) {
  if (wanted !== loaded) return null;
  return plain((await engraver()).renderToSVG(page, {}));
}

/** @type {Record<string, (message: any) => Promise<unknown>>} */
const works = { start: async () => Boolean(await engraver()), load, draw };

/** One after the other: the engraver keeps one score. */
let queue = Promise.resolve();
addEventListener('message', ({ data }) => {
  queue = queue.then(async () => {
    try {
      postMessage({ number: data.number, answer: await works[data.what]?.(data) });
    } catch (fault) {
      postMessage({ number: data.number, fault: String(fault) });
    }
  });
});
