// Every page, at 320 and 1280 px: WCAG 2.2 AA by axe-core, no sideways scrolling, targets of 44 px for a thumb and of
// 24 px for a mouse (2.5.8), and its contrast in the dark. 320 px is also what a 1280 px window shows at 400 % zoom (WCAG 2.2, 1.4.10). A faulty page must be caught.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { check, home, prepare, run } from './served.mjs';

const axe_source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const narrow = { width: 320, height: 640, deviceScaleFactor: 1 }, wide = { width: 1280, height: 900, deviceScaleFactor: 1 };

// Pages of one kind look alike: two of each are judged. Each inquiry is a kind of its own, asked once.
function kind_of(address) {
  const url = new URL(address);
  const path = url.pathname.replace(/^\/vehicle\/[^/]+/, '/vehicle/*').replace(/^\/(catalog\/[^/]+)\/.+/, '/$1/*');
  if (path.startsWith('/compute/') && !answered.includes(url.pathname + url.search)) return path;
  return path + [...url.searchParams.keys()].filter((name, at, all) => all.indexOf(name) === at).sort().join('&').replace(/^(?=.)/, '?');
}

// Computations that come with curves, tables and pictures.
const answered = [
  '/compute/transmission_fluids/old-fluid?go=1&total=9&drained=4&target=10',
  '/compute/transmission_fluids/viscosity?go=1&kv_cold=34&kv_hot=7.1',
  '/compute/transmission_fluids/level-rise?go=1',
  '/compute/filters_seals/filter-stack?go=1&for=bookvan',
  '/compute/mounts/natural-frequency?go=1&stiffness=200&carried=180&cylinders=4&idle=750',
  '/compute/solenoids/apply-table?go=1&for=bookvan',
  '/compute/solenoids/coil?go=1&for=bookvan&ohm=31&temp=60&low=23&high=29',
  '/compute/solenoids/position?go=1&gearbox=tarn-4&element=A',
];

async function violations(page) {
  const found = await page.evaluate((only) => window.axe.run(document, { runOnly: only, resultTypes: ['violations'] }), tags);
  return found.violations.map((one) => `${one.id} (${one.impact}): ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' | ')}`);
}

// Links within a sentence are as tall as the sentence (WCAG 2.2, 2.5.8 and 2.5.5 both except them).
const small_targets = (least) => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, label.tick')]
  .filter((one) => {
    if (one.closest('.skip') || one.closest('label.tick') !== null && one.tagName === 'INPUT') return false;
    if (!one.checkVisibility({ checkVisibilityCSS: true })) return false;
    const box = one.getBoundingClientRect();
    if (box.width === 0 || box.height === 0 || box.height >= least - 0.1) return false;
    return getComputedStyle(one).display !== 'inline' && !one.matches('.source, .leaves a, cite a');
  })
  .map((one) => `${Math.round(one.getBoundingClientRect().height)} px: ${one.outerHTML.slice(0, 120)}`);

const sideways = () => {
  const room = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= room) return '';
  const widest = [...document.querySelectorAll('body *')].filter((one) => one.getBoundingClientRect().right > room + 0.5).slice(-1)[0];
  return `${document.documentElement.scrollWidth} px wide: ${widest?.outerHTML.slice(0, 160)}`;
};

async function judge(page, address) {
  await page.evaluate(axe_source);
  for (const size of [narrow, wide]) {
    if (size === wide) await page.setViewport(wide);
    for (const fault of await violations(page)) check(false, `${address} at ${size.width} px: ${fault}`);
    const over = await page.evaluate(sideways);
    check(over === '', `${address} at ${size.width} px scrolls sideways: ${over}`);
    for (const small of await page.evaluate(small_targets, size === narrow ? 44 : 24)) check(false, `${address} at ${size.width} px: a target of ${small}`);
  }
  await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: 'dark' }]);
  const dark = await page.evaluate(() => window.axe.run(document, { runOnly: { type: 'rule', values: ['color-contrast'] }, resultTypes: ['violations'] }));
  for (const one of dark.violations) check(false, `${address} in the dark: ${one.nodes[0].html.slice(0, 160)}: ${one.nodes[0].failureSummary}`);
  await page.emulateMediaFeatures([]);
  await page.setViewport(narrow);
}

async function faulty_is_caught(browser) {
  const page = await browser.newPage();
  await page.setViewport(narrow);
  await page.setContent('<html><body><img src="x.png"><p style="color:#aaa;background:#fff">faint</p><input><div style="width:900px">wide</div><button>small</button></body></html>');
  await page.evaluate(axe_source);
  const found = await violations(page);
  for (const rule of ['image-alt', 'color-contrast', 'label', 'html-has-lang', 'document-title'])
    check(found.some((one) => one.startsWith(rule)), `the faulty page: ${rule} was not caught`);
  check(await page.evaluate(sideways) !== '', 'the faulty page: its sideways scrolling was not caught');
  check((await page.evaluate(small_targets, 44)).length === 2, 'the faulty page: its small targets were not caught');
  await page.close();
}

await run(async (browser, address) => {
  const seen = new Map(), waiting = [], judged = [];
  const note = (link) => {
    const url = new URL(link, address);
    url.hash = '';
    if (url.origin !== address || /\.(css|svg)$/.test(url.pathname)) return;
    const kind = kind_of(url), of_kind = seen.get(kind) ?? new Set();
    if (of_kind.has(url.href) || of_kind.size >= (kind.startsWith('/compute/') ? 1 : 2)) return;
    seen.set(kind, of_kind.add(url.href));
    waiting.push(url.href);
  };
  for (const start of [...answered, '/', '/vehicle/bookvan', '/vehicle/bookvan/list?job=pan-service&job=engine-mounts', '/vehicle/tellvan/list?job=pan-service', '/nowhere', '/vehicle/bookvann',
    ...['job', 'order', 'bench-match', 'history', 'disclosure'].map((kind) => `/vehicle/tellvan/sheet?kind=${kind}&job=pan-service&paper=a4`)]) note(start);

  const worker = async () => {
    const page = await browser.newPage();
    await page.setViewport(narrow);
    const complaints = [];
    page.on('console', (message) => { if (['error', 'warn'].includes(message.type())) complaints.push(message.text()); });
    page.on('pageerror', (error) => complaints.push(error.message));
    while (waiting.length) {
      const at = waiting.shift();
      const reply = await page.goto(at, { waitUntil: 'load', timeout: 30000 });
      const expected = /nowhere|bookvann/.test(at) ? 404 : 200;
      check(reply.status() === expected, `${at}: status ${reply.status()}`);
      for (const complaint of complaints.splice(0)) check(expected === 404 && /404/.test(complaint), `${at}: the browser says: ${complaint}`);  // the content policy among them
      for (const link of await page.$$eval('a[href]', (all) => all.map((one) => one.href))) note(link);
      await judge(page, at);
      judged.push(at);
    }
    await page.close();
  };
  await worker.call();  // the first pages fill the list
  await faulty_is_caught(browser);
  check(judged.length >= 20, `only ${judged.length} pages were found`);
  console.log(`${judged.length} pages judged`);
  if (process.env.CASEBOUND_SHOW_PAGES) console.log(judged.join('\n'));
}, () => {
  prepare();
  mkdirSync(join(home, 'lists'));  // a seller's list that was sent
  writeFileSync(join(home, 'lists', 'kelder.list'), 'Part no;Description;Category;Price\nPF 33.1;Filter;Pan filter;12,50\nPF 34;Filter;Sieve;9,80\n');
});
