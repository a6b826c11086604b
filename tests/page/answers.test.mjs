// The server's answers as its schemas describe them (tools/schema/page-*.json), and what it does with requests and signals that come at
// a bad time.
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { test } from 'node:test';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { root, score, serve } from './browser.mjs';

/** Asks the server; what is answered is gathered under the name of its schema. */
function asking(server, gathered) {
  const ask = async (schema, where, body) => {
    const response = await fetch(server.address + where, body === undefined ? {} :
      { method: 'POST', headers: { 'Content-Type': body instanceof Buffer ? 'application/octet-stream' : 'application/json' }, body: body instanceof Buffer ? body : JSON.stringify(body) });
    const text = await response.text();
    gathered.push([response.ok ? schema : 'page-error', text]);
    return JSON.parse(text);
  };
  return Object.assign(ask, { address: server.address });
}

async function gatherPlans(ask, brought, instrument, conversions) {
  const base = { score: brought.score, part: brought.parts[0].id, instrument, level: 'amateur' };
  let plan = await ask('page-plan', '/api/plan', base);
  await ask('page-plan', '/api/plan', { ...base, tempo: 300, level: 'beginner' });
  for (const conversion of conversions.slice(0, 2)) await ask('page-plan', '/api/plan', { ...base, with: `${instrument}+${conversion.id}` });
  const free = plan.sides[0].notes.findIndex((n) => n.choices > 1);
  const { options } = await ask('page-note', '/api/note', { plan: plan.plan, note: free });
  const pin = { note: free, ...options[1].pin, whole: true };
  plan = await ask('page-plan', '/api/plan', { ...base, choices: { pins: [pin], bans: [], holds: [{ first: free, last: free, touches: [pin.press[0]] }] } });
  await ask('page-engraving', '/api/engraving', { plan: plan.plan });
  await ask('page-lanes', '/api/lanes', { plan: plan.plan, spans: [{ first: 0, last: 5, width: 600 }] });
  const saved = await fetch(ask.address + '/api/save', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ plan: plan.plan, kind: 'choices' }) });
  await ask('page-choices', '/api/choices/read', { plan: plan.plan, text: await saved.text() });
}

test('every answer meets its schema', { timeout: 240000, skip: spawnSync('python3', ['-c', 'import jsonschema']).status !== 0 && 'no python3 has jsonschema (Debian: python3-jsonschema)' }, async () => {
  const server = await serve('--roster', score('rosters/alder-street.yaml'));
  const gathered = [];
  const ask = asking(server, gathered);
  const program = await ask('page-program', '/api/program');
  await ask('page-work', '/api/repertoire');
  await ask('page-work', '/api/roster');
  await ask('page-score', '/api/demo', { demo: 'none such' });
  for (const id of ['lowland-round', 'low-bridge', 'swifts']) {
    const demo = program.demos.find((d) => d.id === id);
    const base = demo.instrument.split('+')[0];
    await gatherPlans(ask, await ask('page-score', '/api/demo', { demo: id }), demo.instrument, program.instruments.find((i) => i.id === base).conversions);
  }
  await ask('page-score', '/api/scores?name=a.musicxml', fs.readFileSync(score('tenor-walk.musicxml')));
  const { pairs } = await ask('page-trills', '/api/trills', { instrument: 'bassoon', level: 'beginner' });
  for (const verdict of ['fluent', 'workable', 'laborious', 'out-of-reach']) {
    const pair = pairs.find((p) => p.verdict === verdict);
    if (pair) await ask('page-trill', '/api/trill', { instrument: 'bassoon', level: 'beginner', from: pair.from, to: pair.to });
  }
  let roster;
  while ((roster = await ask('page-work', '/api/roster')).state === 'working') await new Promise((done) => setTimeout(done, 500));
  assert.equal(roster.state, 'done');
  await ask('page-sheet', '/api/roster/sheet', { pupil: roster.assignment.pupils[0].id });
  await server.stop();

  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fingerway-answers-'));
  const files = gathered.map(([schema, text], i) => {
    const file = path.join(folder, `${i}.json`);
    fs.writeFileSync(file, text);
    return `${schema}=${file}`;
  });
  const schemas = fs.readdirSync(path.join(root, 'tools/schema')).filter((f) => f.startsWith('page-')).map((f) => f.replace('.schema.json', ''));
  assert.deepEqual(schemas.filter((s) => !gathered.some(([name]) => name === s)), [], 'schemas that no answer was held against');
  execFileSync('python3', [path.join(root, 'tests/report/json_schemas.py'), path.join(root, 'tools/schema'), ...files], { encoding: 'utf8' });
  fs.rmSync(folder, { recursive: true });
});

/** What comes back on a connection of our own, and after how many ms it ends. */
function raw(server, send) {
  const { hostname, port } = new URL(server.address);
  return new Promise((done) => {
    const begun = Date.now();
    let text = '';
    const socket = net.connect(Number(port), hostname, () => send(socket));
    socket.on('data', (bytes) => { text += bytes; });
    socket.on('error', () => {});
    socket.on('close', () => done({ text, ms: Date.now() - begun }));
  });
}

test('a head without end, a body nobody asked for and what is no request are refused', { timeout: 60000 }, async () => {
  const server = await serve();
  const host = new URL(server.address).host;
  const endless = await raw(server, (s) => s.write(`GET / HTTP/1.1\r\nHost: ${host}\r\n${'X-More: 1234567890\r\n'.repeat(4000)}\r\n`));
  assert.doesNotMatch(endless.text, / 200 /);
  for (const [request, status] of [
    [`POST /api/nothing HTTP/1.1\r\nHost: ${host}\r\nContent-Length: 99999999\r\n\r\n`, 404],
    [`PUT /api/plan HTTP/1.1\r\nHost: ${host}\r\nContent-Length: 5\r\n\r\nabcde`, 405],
    [`POST /api/plan HTTP/1.1\r\nHost: ${host}\r\nTransfer-Encoding: chunked\r\n\r\n`, 411],
    [`GET /${'a'.repeat(2000)} HTTP/1.1\r\nHost: ${host}\r\n\r\n`, 414],
    ['GET / HTTP/1.1\r\n\r\n', 403]]) {
    const { text } = await raw(server, (s) => s.write(request));
    assert.match(text, new RegExp(`^HTTP/1.1 ${status} `), request.slice(0, 40));
    assert.match(text, /"messages":\[/);
  }
  assert.equal((await fetch(server.address + '/')).status, 200);
  await server.stop();
});

test('a signal ends the server soon, with senders that dawdle and plans under way', { timeout: 90000 }, async () => {
  for (const signal of ['SIGTERM', 'SIGINT']) {
    const server = await serve();
    const ask = asking(server, []);
    const brought = await ask('page-score', '/api/demo', { demo: 'lowland-round' });
    const dawdling = Array.from({ length: 60 }, () => raw(server, (s) => s.write('POST /api/scores HTTP/1.1\r\n')));
    const busy = Array.from({ length: 20 }, (_, i) => ask('page-plan', '/api/plan', { score: brought.score, part: 'P1', instrument: 'bassoon', tempo: 60 + i }).catch(() => {}));
    await new Promise((done) => setTimeout(done, 300));
    const begun = Date.now();
    const code = await new Promise((done) => {
      server.child.removeAllListeners('exit');
      server.child.on('exit', done);
      server.child.kill(signal);
    });
    assert.equal(code, 0);
    assert.ok(Date.now() - begun < 8000, `${Date.now() - begun} ms`);
    await Promise.all([...dawdling, ...busy]);
  }
});
