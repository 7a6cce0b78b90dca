// Words, not keys: over every command and page of the demo, no key of an attribute, a value, a place, a group, a job or a
// line stands in what a person reads; only what is typed may be a key. With --keys they are there.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { casebound, check, prepare, run, seed } from './served.mjs';

function column(pack, file, name) {
  const [head, ...rows] = readFileSync(join(seed, pack, `${file}.csv`), 'utf8').trim().split(/\r?\n/).map((row) => row.split(','));
  const at = head.indexOf(name);
  return rows.map((row) => row[at]);
}

// Only what cannot be a word: with a dash or a stroke in it. A fluid's spec is called by its name.
function keys() {
  const all = new Set([...column('demo-fleet', 'groups', 'group_key').filter((key) => !/^[A-Z0-9.-]+$/.test(key)), ...['filters_seals', 'mounts', 'solenoids', 'transmission_fluids'].flatMap((pack) => column(pack, 'jobs', 'job')), ...column('demo-fleet', 'lines', 'line')]);
  for (const [, values] of readFileSync(join(seed, 'demo-fleet', 'configurations.csv'), 'utf8').matchAll(/=([a-z0-9_|.-]+)/g)) values.split('|').filter((value) => value.includes('_')).forEach((value) => all.add(value));
  const words = JSON.parse(casebound('pack', 'words', '--json'));
  const gather = (one) => {
    if (Array.isArray(one)) return one.forEach(gather);
    if (one === null || typeof one !== 'object') return;
    for (const name of ['role', 'attribute', 'item_kind', 'kind']) if (typeof one[name] === 'string') all.add(one[name]);
    Object.values(one).forEach(gather);
  };
  gather(words);
  const titles = [...words.roles, ...words.attributes, ...words.item_kinds].map((one) => one.title).join(' | ');
  return [...all].filter((key) => /[a-z][-_]|_/.test(key) && !titles.includes(key));
}

// What is typed, to the end of its paragraph, may be a key.
const read = (text) => text.replace(/casebound [a-z][^\n]*(\n {2,}[^\n]*)*/g, '').replace(/--[a-z-]+ [^\s,]+/g, '');
const found_in = (text, all) => all.filter((key) => new RegExp(`(?<![A-Za-z0-9_.-])${key.replace(/[.]/g, '\\.')}(?![A-Za-z0-9_-])`).test(text));

const commands = [
  'list bookvan pan-service', 'list bookvan pan-service engine-mounts', 'list bookvan pan-service --full', 'list tellvan pan-service', 'list hearvan pan-service', 'list milkvan pan-service', 'ask bookvan',
  'fits bookvan', 'fits bookvan pan-filter', 'fits bookvan pan-filter --full', 'why bookvan Q312-1141', 'why bookvan QF-4', 'why tellvan Q312-1141', 'swap Q312-1141 Q312-1161', 'swap QF-4 QF-5 --for bookvan',
  'buy bookvan pan-service', 'buy bookvan pan-service --without drain-plug-washer', 'buy tellvan pan-service', 'buy bookvan engine-mounts', 'decide bookvan', 'find filter', 'vehicle show bookvan', 'vehicle list',
  'record tellvan', 'due', 'sheet bookvan job pan-service', 'sheet tellvan job pan-service', 'sheet tellvan order pan-service', 'sheet bookvan order pan-service', 'sheet bookvan bench-match pan-service',
  'sheet tellvan history', 'sheet tellvan disclosure', 'offer list', 'shelf list', 'own show', 'audit',
  // stand-ins and their conditions, kits and their parts, what domains say of other lines, what is held, what was written down
  'swap gasket-t4-rigid gasket-t4-nitrile', 'swap gasket-t4-rigid gasket-t4-nitrile --full', 'swap pan-t4-41 pan-t4-61', 'swap washer-14-cu washer-14-bonded', 'swap mount-pk-l-solid mount-pk-l-hyd-26', 'swap mount-lg-g-2 mount-lg-g-4',
  'swap sol-t4-shift sol-t4-lockup', 'swap seal-neck-hat-2 seal-neck-band', 'swap TGF-1 QF-LV', 'swap STF-1 QF-4 --full', 'why bookvan LD-K4141', 'why bookvan Q312-5218', 'why bookvan Q312-9009', 'why hearvan 0094-1840',
  'list bookvan pan-gasket --full', 'list lightvan shift-solenoid-a', 'list lightvan shift-solenoid-a --full', 'list lightvan engine-mounts', 'list tendvan pan-service --full', 'list ferrvan pan-gasket --full', 'list milkvan pan-service --full',
  'ask ferrvan shift-solenoid-a', 'ask milkvan pan-service', 'fits bookvan --full', 'fits lightvan --full', 'fits tendvan --full', 'buy lightvan shift-solenoid-a', 'buy milkvan pan-service', 'buy hearvan pan-gasket', 'sheet hearvan order pan-gasket',
  'sheet lightvan job shift-solenoid-a', 'sheet whervan job pan-service', 'sheet milkvan job pan-service', 'due lightvan', 'decide bookvan --full', 'own show --full',
  'buy ordervan pan-service', 'buy ordervan pan-service --within 1', 'buy ordervan pan-service --without pan-gasket', 'decide ordervan look-good-if-works=80%', 'tables imitators'];
const pages = ['/', '/vehicle/bookvan', '/vehicle/tellvan', '/vehicle/bookvan/list?job=pan-service', '/vehicle/tellvan/list?job=pan-service', '/vehicle/bookvan/fits', '/vehicle/bookvan/why?item=LD-2161', '/vehicle/bookvan/cause',
  '/vehicle/bookvan/order?job=pan-service', '/vehicle/bookvan/order?job=engine-mounts', '/vehicle/tellvan/order?job=pan-service', '/vehicle/tellvan/record', '/vehicle/bookvan/decide', '/due', '/offers', '/catalog/find?key=filter', '/catalog', '/settings',
  '/swap?wanted=gasket-t4-rigid&offered=gasket-t4-nitrile', '/swap?wanted=pan-t4-41&offered=pan-t4-61', '/vehicle/lightvan/list?job=shift-solenoid-a', '/vehicle/tendvan/list?job=pan-service', '/vehicle/milkvan/list?job=pan-service',
  '/vehicle/milkvan/order?job=pan-service', '/vehicle/hearvan/order?job=pan-gasket', '/vehicle/bookvan/why?item=Q312-5218', '/vehicle/bookvan/why?item=LD-K4141', '/vehicle/lightvan/why?item=Q312-9009', '/vehicle/hearvan/fits', '/own',
  '/vehicle/ordervan/order?job=pan-service', '/vehicle/ordervan/order?job=pan-service&within=1', '/vehicle/ordervan/order?job=pan-service&without=pan-gasket', '/vehicle/lightvan/order?job=engine-mounts', '/catalog/tables?table=imitators'];

function prepare_more() {
  prepare();
  for (const [name, line] of [['lightvan', 'quernmoor-lighter'], ['tendvan', 'skarn-tender'], ['ferrvan', 'tolvane-ferrier'], ['whervan', 'veldrin-wherry']]) casebound('vehicle', 'new', name, line);
  casebound('vehicle', 'new', 'ordervan', 'quernmoor-packet', 'build=2006-06', 'engine=2.6', 'cooler=no', 'pan_depth=41mm', '--evidence', 'measured');
  casebound('shelf', 'put', 'item=Q-QF4-5', 'quantity=3L');
  casebound('note', 'bookvan', 'pan-filter', 'PF-33', '--says', 'a list of 2026', '--where', 'pan depth 41 mm');
  casebound('note', 'bookvan', 'fasteners', 'position=left', 'fastener=M10 nut', 'count=3', 'tightening=45 N m', 'reuse=if_undamaged', '--says', 'the handbook, page 8');
}

await run(async (browser, address) => {
  const all = keys();
  check(all.length > 200 && ['pan_depth', 'hat_in_bore', 'seal-neck-band', 'pan-filter', 'pan-service', 'quernmoor-packet'].every((key) => all.includes(key)), `only ${all.length} keys are known`);
  for (const command of commands) {
    const found = found_in(read(casebound(...command.split(' '))), all);
    check(found.length === 0, `casebound ${command}: ${found.join(', ')}`);
  }
  check(found_in(casebound('fits', 'bookvan', '--keys'), all).length > 5, '--keys shows none');
  const page = await browser.newPage();
  for (const path of pages) {
    await page.goto(address + path);
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => { one.open = true; }));
    const found = found_in(read(await page.$eval('main', (main) => main.innerText)), all);
    check(found.length === 0, `${path}: ${found.join(', ')}`);
  }
  console.log(`${commands.length} commands and ${pages.length} pages read for ${all.length} keys`);
}, prepare_more);
