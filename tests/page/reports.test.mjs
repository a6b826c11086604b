// The class and the repertoire as pages, where the server was started with them.
import assert from 'node:assert/strict';
import { score, served } from './browser.mjs';

const { onPage } = served('--roster', score('rosters/alder-street.yaml'), '--repertoire', score('repertoires/one-season.yaml'), '-i', 'bassoon',
    '--conversions', 'interlinked-low-keys,low-key-rollers');

onPage('a class shows its summary, and a pupil\'s sheets open', async (page) => {
  await page.getByRole('link', { name: 'Class' }).click();
  await page.getByRole('button', { name: 'Tilda' }).click({ timeout: 60000 });
  await page.waitForFunction(() => /Lowland/.test(document.querySelector('.sheet .report')?.shadowRoot?.textContent ?? ''));
  assert.ok((await page.locator('.sheet svg.system').count()) > 0, 'no lanes on the sheet');
});

onPage('a repertoire shows which conversions pay off', async (page) => {
  await page.getByRole('link', { name: 'Repertoire' }).click();
  await page.waitForFunction(() => /Best set/.test(document.querySelector('#view-repertoire .report')?.shadowRoot?.textContent ?? ''), null, { timeout: 200000 });
}, { timeout: 240000 });
