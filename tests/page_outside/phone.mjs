// The page at arm's length, on a phone of 390 by 844: how long, how soon the first part, how heavy; what may never be
// folded away; where a line waits its colour; 200 % without scrolling sideways; the header at night.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { check, run } from './served.mjs';

const axe_source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const phone = { width: 390, height: 844, deviceScaleFactor: 1 }, list = '/vehicle/bookvan/list?job=pan-service';
const most_screens = 4, most_bytes = 60 * 1024;

// Of an element that is drawn: its foot within the height, above what is pinned.
const in_first_screen = (selector) => {
  const one = document.querySelector(selector), pinned = document.querySelector('.pinned');
  return one !== null && one.getBoundingClientRect().bottom <= (pinned?.getBoundingClientRect().top ?? innerHeight);
};
const drawn = (words) => [...document.querySelectorAll('main *')].some((one) =>
  [...one.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE).map((node) => node.data).join(' ').toLowerCase().includes(words.toLowerCase()) &&
  one.checkVisibility({ checkVisibilityCSS: true }) && [...document.querySelectorAll('details:not([open])')].every((folded) => !folded.contains(one) || folded.querySelector('summary').contains(one)));
const luminance = (selector) => {
  const [r, g, b] = getComputedStyle(document.querySelector(selector)).backgroundColor.match(/[\d.]+/g).map((c) => { const s = c / 255; return s <= 0.03928 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4; });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;  // WCAG 2.2, relative luminance
};

async function lengths(page, address) {
  const reply = await page.goto(address + list);
  const bytes = (await reply.buffer()).length;
  check(bytes < most_bytes, `the list weighs ${bytes} bytes, not under ${most_bytes}`);
  check(!(await page.$('script')), 'the list has a script');
  const screens = await page.evaluate(() => document.documentElement.scrollHeight / innerHeight);
  check(screens <= most_screens, `the list is ${screens.toFixed(2)} screens long, not at most ${most_screens}`);
  for (const [what, at] of Object.entries({ 'the vehicle': 'h1', 'ready or not': '.ready', 'the question': '.question', 'an answer': '.asked button', 'the first part': 'li.line', 'the way to the order': '.pinned a' }))
    check(at === '.pinned a' ? await page.evaluate(() => document.querySelector('.pinned').getBoundingClientRect().bottom <= innerHeight + 1) : await page.evaluate(in_first_screen, at), `${what} is not inside the first screen`);
  return `${screens.toFixed(1)} screens, ${bytes} bytes`;
}

// Few answers are large buttons; one touch tells it.
async function answered_by_touch(page, address) {
  await page.goto(`${address}${list}&ask=pan_depth`);
  const answers = await page.$$eval('.asked button', (all) => all.map((one) => [one.innerText, one.getBoundingClientRect().height]));
  check(['41 mm', '61 mm', 'Cannot get at it'].every((words) => answers.some(([text, height]) => text === words && height >= 50)), `the answers are ${JSON.stringify(answers)}`);
}

async function never_folded(page, address) {
  await page.goto(address + list);
  for (const words of ['check first', 'stays behind', 'pressed up in the bore', '1 out and 1 in', 'Q312-1141']) check(await page.evaluate(drawn, words), `"${words}" is folded away`);
  await page.goto(`${address}/vehicle/hearvan/list?job=pan-service`);
  check(await page.evaluate(drawn, 'right only if this is true'), '"right only if" is folded away');
  await page.goto(`${address}/vehicle/milkvan/list?job=pan-service`);
  check(await page.evaluate(drawn, 'not yet:'), 'what is held is folded away');
  const colours = await page.evaluate(() => Object.fromEntries(['.is-yes', '.is-check', '.line.stop'].map((at) => [at, getComputedStyle(document.querySelector(at) ?? document.body)[at === '.line.stop' ? 'borderLeftColor' : 'color']])));
  check(new Set(Object.values(colours)).size === 3, `verdicts are not told apart by colour: ${JSON.stringify(colours)}`);
}

// 200 % at 390 px is 195 px of room (WCAG 2.2, 1.4.4 and 1.4.10).
async function zoomed(page, address, path) {
  for (const width of [320, 195]) {
    await page.setViewport({ ...phone, width });
    await page.goto(address + path);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    check(over <= 0, `${path} at ${width} px scrolls sideways by ${over} px`);
  }
  await page.setViewport(phone);
}

async function night(page, address) {
  await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: 'dark' }]);
  await page.goto(address + list);
  check(await page.evaluate(luminance, '.top') < 0.06, 'the header is bright at night');
  await page.emulateMediaFeatures([]);
}

async function every_rule(page, address, path) {
  const bytes = (await (await page.goto(address + path)).buffer()).length;
  check(bytes < most_bytes, `${path} weighs ${bytes} bytes, not under ${most_bytes}`);
  check(!(await page.$('script')), `${path} has a script`);
  await page.evaluate(axe_source);
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
  for (const one of found.violations) check(false, `${path}: ${one.id}: ${one.nodes.slice(0, 2).map((node) => node.html.slice(0, 140)).join(' | ')}`);
}

const pages = ['/', '/vehicle/bookvan', list, '/vehicle/bookvan/list?job=oil-service&job=coolant-change', '/vehicle/bookvan/list?job=stabiliser-links-front', '/vehicle/hearvan', '/vehicle/milkvan', '/vehicle/tellvan', '/vehicle/tellvan/list?job=pan-service', '/vehicle/bookvan/fits', '/vehicle/bookvan/cause', '/vehicle/bookvan/decide',
  '/vehicle/bookvan/order?job=pan-service', '/vehicle/tellvan/record', '/vehicle/tellvan/keep', '/vehicle/bookvan/note', '/vehicle/bookvan/sheets', '/vehicle/bookvan/why?item=LD-2161', '/due', '/offers', '/swap',
  '/compute', '/compute/solenoids/coil?go=1&for=bookvan&ohm=31&temp=60&low=23&high=29', '/compute/solenoids/position?go=1&gearbox=tarn-4&element=A', '/catalog', '/catalog/find?key=filter', '/catalog/item?key=LD-2161', '/catalog/group?key=QF-4', '/own', '/settings', '/nowhere'];

await run(async (browser, address) => {
  const page = await browser.newPage();
  await page.setViewport(phone);
  const said = await lengths(page, address);
  await answered_by_touch(page, address);
  await never_folded(page, address);
  await night(page, address);
  for (const path of pages) {
    await zoomed(page, address, path);
    await every_rule(page, address, path);
    check(await page.$('form[role=search]'), `${path}: no search`);
  }
  console.log(`the list: ${said}; ${pages.length} pages by every rule`);
});
