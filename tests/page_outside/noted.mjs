// From an empty home to an order with one thumb: a vehicle that no pack knows, its first list, five places written down in
// at most five taps each, then what is written down corrected and withdrawn. Taps are counted; no script runs.
import { casebound, check, run } from './served.mjs';

const phone = { width: 320, height: 640, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const writes = (key) => `form:has(input[name="form"][value="${key}"])`;
const maker = "the maker's parts list, 2026";

await run(async (browser, address) => {
  const page = await browser.newPage();
  await page.setJavaScriptEnabled(false);
  await page.setViewport(phone);
  let taps = 0, sent = 0;
  const text = () => page.$eval('main', (main) => main.innerText.replace(/\s+/g, ' '));
  const shows = async (words, step) => check((await text()).toLowerCase().includes(words.toLowerCase()), `${step}: "${words}" is not there: ${(await text()).slice(0, 500)}`);
  const tap = async (at, step) => {
    if (!at) throw new Error(`${step}: nothing to tap at ${page.url()}: ${(await text()).slice(0, 500)}`);
    ++taps;
    await at.evaluate((one) => one.scrollIntoView({ block: 'center' }));  // what the pinned bar covers is scrolled to first
    await at.tap();
  };
  const go = async (at, step) => Promise.all([page.waitForNavigation({ timeout: 20000 }), tap(at, step)]);
  const follow = async (words) => {
    for (const link of await page.$$('main a[href]'))
      if (await link.evaluate((one, wanted) => one.innerText.trim() === wanted, words)) return go(link, words);
    throw new Error(`no link "${words}" at ${page.url()}: ${(await text()).slice(0, 800)}`);
  };
  const type = async (form, name, value) => {
    const at = await page.$(`${form} [name="${name}"]`);
    await tap(at, name);
    if (await at.evaluate((one) => one.tagName === 'SELECT')) return at.select(value);
    await at.evaluate((one) => one.select());
    await at.type(value);
  };
  const send = async (form) => { ++sent; await go(await page.$(`${form} button`), 'button'); };

  await page.goto(`${address}/`);
  await shows('No vehicle yet', 'an empty yard');
  await type(writes('new-vehicle'), 'name', 'blue');
  await type(writes('new-vehicle'), 'called', 'Harbour Van 2.2');
  await send(writes('new-vehicle'));
  await tap(await page.$('form[action$="/list"] label.tick:has(input[value="pan-service"])'), 'the job');
  await send('form[action$="/list"]');
  check(sent === 2, `the first list came after ${sent} commands, not 2`);
  await shows('5 not recorded', 'the first list');
  await shows('the number on it; how it sits', 'what to read off the old one');

  const places = [['pan filter', { part: 'PF 33.1', who: maker, 'how-good': 'maker' }], ['filter-neck seal', { part: 'NS-21' }],
    ['gearbox fluid', { part: 'Heron 3', quantity: '5.3' }], ['pan gasket', { part: 'PG-7' }], ['drain-plug washer', { part: 'none' }]];
  for (const [place, fields] of places) {
    taps = 0;
    await follow(`Write down what goes there: ${place}`);
    for (const [name, value] of Object.entries(fields)) await type(writes('note'), name, value);
    await send(writes('note'));
    check(new URL(page.url()).pathname === '/vehicle/blue/list', `${place}: written down, the page goes to ${page.url()}`);
    check(taps <= 5, `${place}: ${taps} taps from its line, not at most 5`);
  }
  await shows('Ready to order', 'five places settled');
  await shows('PF-33.1', 'five places settled');
  check(sent <= 12, `settled after ${sent} commands, not at most 12`);
  check(casebound('list', 'blue', 'pan-service').includes('Ready to order'), 'the command line says otherwise');

  await page.goto(`${address}/own`);
  await shows('pan filter: PF-33.1 fits', 'the own pack');
  await shows(maker, 'the own pack');
  await follow('Correct statement 2');
  await type(writes('correct-note'), 'group_key', 'PF 38');
  await send(writes('correct-note'));
  await shows('Withdrawn', 'after a correction');
  check(casebound('fits', 'blue', 'pan-filter').includes('PF-38'), 'the correction does not count');
  const withdraw = `${writes('withdraw-note/7')}`;
  await send(withdraw);
  check(casebound('fits', 'blue', 'pan-filter').includes('NOT RECORDED'), 'what was withdrawn still counts');

  await page.goto(`${address}/vehicle/blue/note?table=stays_behind`);
  const row = { role: 'filter-neck-seal', place: 'up in the bore', see: 'with a mirror', remove: 'hook it out', count: '1' };
  for (const [name, value] of Object.entries(row)) await type(writes('note'), name, value);
  await send(writes('note'));
  await shows('up in the bore', 'what stays behind, in the own pack');
  check(casebound('list', 'blue', 'pan-service').includes('STAYS BEHIND'), 'the list says nothing of what stays');
  console.log('first list after 2 commands, five places settled after 7, each in at most 5 taps');
}, null);
