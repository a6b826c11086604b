// What this part answers: the requests of the page. Faults are told as the sentences the server gives.

/** A fault with the server's sentences. `gone` when the server no longer keeps what was asked about. */
export class Fault extends Error {
  /** @param {string[]} sentences @param {number} status */
  constructor(sentences, status) {
    super(sentences.join('\n'));
    this.sentences = sentences;
    this.gone = status === 410;
  }
}

/** @param {Response} response */
async function checked(response) {
  if (response.ok) return response;
  /** @type {string[]} */
  let sentences = [];
  try {
    sentences = (await response.json()).error.messages;
  } catch {
    sentences = [`the server answered ${response.status} (restart fingerway serve, then reload this page)`];
  }
  throw new Fault(sentences, response.status);
}

/** @param {string} path @param {RequestInit} how */
async function ask(path, how) {
  try {
    return await fetch(path, how);
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === 'AbortError') throw fault;
    throw new Fault(['the server does not answer (is fingerway serve still running?)'], 0);
  }
}

/**
 * @param {string} path
 * @param {unknown} body
 * @param {AbortSignal} [signal]
 * @returns {Promise<any>}
 */
export async function post(path, body, signal) {
  const response = await ask(path, {
    method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body), signal });
  return (await checked(response)).json();
}

/** @param {string} path @returns {Promise<any>} */
export async function get(path) {
  return (await checked(await ask(path, {}))).json();
}

/** @param {string} name @param {ArrayBuffer} bytes @returns {Promise<any>} */
export async function upload(name, bytes) {
  const response = await ask('/api/scores?name=' + encodeURIComponent(name), {
    method: 'POST', headers: { 'Content-Type': 'application/octet-stream' }, body: bytes });
  return (await checked(response)).json();
}

/**
 * A file the server makes: its bytes and its name.
 * @param {string} path
 * @param {unknown} body
 */
export async function file(path, body) {
  const response = await checked(await ask(path, {
    method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) }));
  const name = /filename="?([^";]+)"?/.exec(response.headers.get('Content-Disposition') ?? '')?.[1];
  return { name, blob: await response.blob() };
}
