// What this part answers: MusicXML as drawn systems, one a page of the engraver's, away from the page's own thread.
// Messages in: {number, what: 'load', musicxml, width, scale, ids} or {number, what: 'draw', page}; out: {number, answer} or {number, fault}.

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

/** @param {{musicxml: string, width: number, scale: number, ids: string[], number: number}} message */
async function load({ musicxml, width, scale, ids, number }) {
  const tool = await engraver();
  tool.setOptions({
    pageWidth: Math.max(100, Math.round((width * 100) / scale)), pageHeight: 100, scale, adjustPageHeight: true, breaks: 'auto',
    header: 'none', footer: 'none', svgViewBox: true, svgRemoveXlink: true, pageMarginTop: 30, pageMarginBottom: 20, pageMarginLeft: 0,
    pageMarginRight: 12, spacingLinear: 0.42, spacingNonLinear: 0.6, lyricSize: 4, justifyVertically: false, minLastJustification: 0.5 });
  if (!tool.loadData(musicxml)) throw new Error('the engraver does not read this score');
  loaded = number;
  return { load: number, pages: tool.getPageCount(), pageOf: ids.map((id) => tool.getPageWithElement(id)) };
}

/** @param {{page: number, load: number}} message */
async function draw({ page, load: wanted }) {
  if (wanted !== loaded) return null;
  return plain((await engraver()).renderToSVG(page, {}));
}

/** One after the other: the engraver keeps one score. */
let queue = Promise.resolve();
addEventListener('message', ({ data }) => {
  queue = queue.then(async () => {
    try {
      postMessage({ number: data.number, answer: await (data.what === 'load' ? load(data) : draw(data)) });
    } catch (fault) {
      postMessage({ number: data.number, fault: String(fault) });
    }
  });
});
