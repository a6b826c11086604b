// A server of the program under test, a browser, and pages that note whatever should not happen.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const shots = path.join(root, 'build', 'page-shots');
const program = process.env.FINGERWAY_PROGRAM ?? path.join(root, 'build/dev/fingerway');
const browserPath = process.env.FINGERWAY_BROWSER ?? '/usr/bin/chromium';

/** Starts `fingerway serve` on a free port and tells its address, and the one the page is to be opened with. */
export async function serve(...options) {
  const child = spawn(program, ['serve', '--port', '0', ...options], { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] });
  const opened = await new Promise((done, failed) => {
    let told = '';
    child.stdout.on('data', (bytes) => {
      told += bytes;
      const found = /(http:\/\/127\.0\.0\.1:\d+\S*)\n/.exec(told);
      if (found) done(found[1]);
    });
    child.on('exit', (code) => failed(new Error(`fingerway serve ended with ${code}`)));
  });
  const stop = () => new Promise((done) => {
    child.removeAllListeners('exit');
    child.on('exit', done);
    child.kill('SIGTERM');
  });
  return { address: new URL(opened).origin, opened, child, stop };
}

/**
 * One server, one browser and a folder for all tests of a file. `onPage` is a test on a page of its own, which must end without a
 * fault and without having left the origin.
 */
export function served(...options) {
  const at = { server: undefined, browser: undefined, folder: fs.mkdtempSync(path.join(os.tmpdir(), 'fingerway-page-')) };
  before(async () => {
    at.server = await serve(...options);
    at.browser = await launch();
  });
  after(async () => {
    await at.browser?.close();
    await at.server?.stop();
    fs.rmSync(at.folder, { recursive: true, force: true });
  });
  at.visit = (how) => visit(at.browser, at.server.address, how);
  at.onPage = (name, work, how = {}) => test(name, { timeout: how.timeout ?? 120000 }, async () => {
    const visited = await at.visit(how);
    await work(visited.page, visited);
    await visited.close();
  });
  return at;
}

export const launch = () => chromium.launch({ executablePath: browserPath, args: ['--no-sandbox', '--autoplay-policy=no-user-gesture-required'] });

/** A page on the server; `wrong` gathers faults in the console (but for what is expected) and requests that leave the origin. */
export async function visit(browser, address, { width = 1280, height = 900, dark = false, expected, opened = address + '/', prepare = async () => {} } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: dark ? 'dark' : 'light', reducedMotion: 'reduce', acceptDownloads: true });
  context.setDefaultTimeout(60000);
  const page = await context.newPage();
  const wrong = [];
  page.on('console', (message) => ['error', 'warning'].includes(message.type()) && !expected?.test(message.text()) && wrong.push(`console: ${message.text()}`));
  page.on('pageerror', (fault) => wrong.push(`fault: ${fault.stack ?? fault}`));
  page.on('request', (request) => {
    const to = new URL(request.url());
    if (!['blob:', 'data:'].includes(to.protocol) && to.origin !== address) wrong.push(`left the origin: ${request.url()}`);
  });
  await page.addInitScript(() => {
    window.print = () => { document.body.dataset.printed = 'yes'; };
  });
  await prepare(page);
  await page.goto(opened);
  await page.waitForSelector('body[data-ready]', { timeout: 60000 });
  const close = async () => {
    assert.deepEqual(wrong, []);
    await context.close();
  };
  return { page, wrong, close };
}

export const score = (name) => path.join(root, 'scores', name);

/** A part of many notes: the bars of a demo again and again. */
export function longScore(notes) {
  const text = fs.readFileSync(score('lowland-round.musicxml'), 'utf8');
  const bars = text.match(/<measure[\s\S]*?<\/measure>/g);
  const each = bars.join('').match(/<note>/g).length;
  const all = [];
  while ((all.length / bars.length) * each < notes) {
    all.push(...bars.map((bar, i) => (all.length === 0 && i === 0 ? bar : bar.replace(/<attributes>[\s\S]*?<\/attributes>/, '').replace(/<barline[\s\S]*?<\/barline>/g, ''))
      .replace(/<measure number="[^"]*"/, `<measure number="${all.length + i + 1}"`)));
  }
  return text.replace(/<measure[\s\S]*<\/measure>/, all.join('\n'));
}

/** Drops a file on the page, as from the file manager. */
export async function drop(page, file, name = path.basename(file)) {
  const bytes = fs.readFileSync(file).toString('base64');
  const data = await page.evaluateHandle(({ bytes, name }) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return transfer;
  }, { bytes, name });
  await page.dispatchEvent('body', 'drop', { dataTransfer: data });
}

/** Waits until the passage is planned and what is in sight is drawn. */
export async function drawn(page) {
  await page.waitForSelector('.summary[aria-busy="false"] h1', { timeout: 60000 });
  await page.waitForSelector('.lanes svg.system', { timeout: 60000 });
  await page.waitForFunction(() => document.querySelector('.remark')?.textContent === '' || !/being engraved/.test(document.querySelector('.remark')?.textContent ?? ''), null, { timeout: 60000 });
  await page.waitForFunction(() => document.querySelector('.summary')?.getAttribute('aria-busy') === 'false');
}

export async function demo(page, title = 'Lowland') {
  await page.getByRole('button', { name: new RegExp(title) }).first().click();
  await drawn(page);
}

/** What the page shows of the plan, asked of the page itself. */
export const facts = (page) => page.locator('.summary').evaluate((s) => s.textContent ?? '');
