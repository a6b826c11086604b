// What this part answers: how elements are made, without a framework and without markup in strings.

/**
 * An element: properties that begin with "on" are listeners, "class" and attributes are set, children appended.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Record<string, any>} [properties]
 * @param {...(Node | string | number | null | undefined | false | (Node | string | null | undefined | false)[])} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function el(tag, properties = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) made.addEventListener(name.slice(2), value);
    else if (name === 'value' || name === 'checked' || name === 'selected' || name === 'disabled' || name === 'open') /** @type {any} */ (made)[name] = value;
    else made.setAttribute(name, value === true ? '' : String(value));
  }
  for (const child of children.flat()) {
    if (child === null || child === undefined || child === false) continue;
    made.append(child instanceof Node ? child : String(child));
  }
  return made;
}

/**
 * A drawing from the server or the engraver as an element. It is parsed as XML, and what could act is left out.
 * @param {string} text
 * @returns {SVGSVGElement}
 */
export function drawing(text) {
  const parsed = new DOMParser().parseFromString(withNamespace(text), 'image/svg+xml');
  const root = parsed.documentElement;
  if (root.localName !== 'svg') throw new Error('not a drawing');
  for (const acting of root.querySelectorAll('script, style, foreignObject, iframe')) acting.remove();
  return /** @type {SVGSVGElement} */ (/** @type {unknown} */ (document.importNode(root, true)));
}

/** @param {string} text */
function withNamespace(text) {
  return /^\s*<svg[^>]*\sxmlns=/.test(text) ? text : text.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"');
}

/**
 * A report of the server's in a tree of its own, so that its rules (/report.css) and names stay inside.
 * @param {string} html
 * @param {string} label
 */
export function report(html, label) {
  const holder = el('div', { class: 'report', role: 'region', 'aria-label': label });
  const inside = holder.attachShadow({ mode: 'open' });
  const parsed = new DOMParser().parseFromString(html, 'text/html');
  for (const acting of parsed.querySelectorAll('script, style, iframe, object, embed, form, base')) acting.remove();
  inside.append(el('link', { rel: 'stylesheet', href: '/report.css' }), ...[...parsed.body.childNodes].map((n) => document.importNode(n, true)));
  inside.addEventListener('click', (event) => {
    const link = event.target instanceof Element ? event.target.closest('a[href^="#"]') : null;
    if (!link) return;
    event.preventDefault();
    inside.getElementById(link.getAttribute('href')?.slice(1) ?? '')?.scrollIntoView({ block: 'center' });
  });
  return holder;
}

/** @param {string} sentence said by screen readers, and nowhere else */
export function say(sentence) {
  const line = document.getElementById('said');
  if (line) line.textContent = sentence;
}

/**
 * A labelled field.
 * @param {string} label
 * @param {HTMLElement} control
 * @param {string} [hint]
 */
export function field(label, control, hint) {
  control.id ||= 'field-' + label.toLowerCase().replace(/[^a-z]+/g, '-');
  const words = hint ? el('small', { id: control.id + '-hint' }, hint) : null;
  if (words) control.setAttribute('aria-describedby', words.id);
  return el('div', { class: 'field' }, el('label', { for: control.id }, label), control, words);
}

/**
 * @param {[string, string][]} values value and words
 * @param {string} chosen
 * @param {(value: string) => void} changed
 */
export function select(values, chosen, changed) {
  const control = el('select', {}, values.map(([value, words]) => el('option', { value, selected: value === chosen }, words)));
  control.addEventListener('change', () => changed(control.value));
  return control;
}

/**
 * Calls at most once in `ms`, with the last arguments.
 * @template {any[]} A
 * @param {number} ms
 * @param {(...given: A) => void} call
 */
export function settled(ms, call) {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let waiting;
  return /** @param {A} given */ (...given) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => call(...given), ms);
  };
}

/** Words of a list item that the server tells as a string or as fields. @param {any} item @returns {string} */
export function words(item) {
  if (item === null || item === undefined) return '';
  if (typeof item !== 'object') return String(item);
  if (item.text) return (item.title ? item.title + ': ' : '') + item.text;
  return Object.values(item).filter((v) => typeof v === 'string' || typeof v === 'number').join(' · ');
}
