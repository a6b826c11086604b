// The class and the repertoire as pages, where the server was started with them.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { launch, score, serve, visit } from './browser.mjs';

let server;
let browser;
before(async () => {
  server = await serve('--roster', score('rosters/alder-street.yaml'), '--repertoire', score('repertoires/one-season.yaml'), '-i', 'bassoon',
    '--conversions', 'interlinked-low-keys,low-key-rollers');
  browser = await launch();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

test('a class shows its summary, and a pupil\'s sheets open', { timeout: 120000 }, async () => {
  const { page, close } = await visit(browser, server.address);
  await page.getByRole('link', { name: 'Class' }).click();
  await page.getByRole('button', { name: 'Tilda' }).click({ timeout: 60000 });
  await page.waitForFunction(() => /Lowland/.test(document.querySelector('.sheet .report')?.shadowRoot?.textContent ?? ''));
  assert.ok((await page.locator('.sheet svg.system').count()) > 0, 'no lanes on the sheet');
  await close();
});

test('a repertoire shows which conversions pay off', { timeout: 240000 }, async () => {
  const { page, close } = await visit(browser, server.address);
  await page.getByRole('link', { name: 'Repertoire' }).click();
  await page.waitForFunction(() => /Best set/.test(document.querySelector('#view-repertoire .report')?.shadowRoot?.textContent ?? ''), null, { timeout: 200000 });
  await close();
});
