// From a new vehicle to its sheet, as a person with one thumb goes: once with scripts allowed, once without.
import { casebound, check, run, serve } from './served.mjs';

const writes = (key) => `form:has(input[name="form"][value="${key}"])`, asks = (path) => `form[method="get"][action$="${path}"]`;
const phone = { width: 320, height: 640, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

async function walk(browser, address, scripts) {
  const name = scripts ? 'thumbvan' : 'plainvan', how = scripts ? 'with scripts' : 'without scripts';
  const page = await browser.newPage();
  await page.setJavaScriptEnabled(scripts);
  await page.setViewport(phone);
  const text = () => page.$eval('main', (main) => main.innerText.replace(/\s+/g, ' '));
  const shows = async (words, step) => check((await text()).toLowerCase().includes(words.toLowerCase()), `${how}: ${step}: "${words}" is not there: ${(await text()).slice(0, 600)}`);
  const go = async (act) => { await Promise.all([page.waitForNavigation({ timeout: 20000 }), act()]); };
  const follow = async (words) => {
    const links = await page.$$('a[href]');
    for (const link of links)
      if (await link.evaluate((one, wanted) => one.innerText.trim() === wanted, words)) return go(() => link.tap());
    throw new Error(`${how}: no link "${words}" at ${page.url()}`);
  };
  const fill = async (form, fields) => {
    for (const [field, value] of Object.entries(fields)) {
      const at = await page.$(`${form} [name="${field}"]`);
      if (!at) throw new Error(`${how}: no field ${field} in ${form} at ${page.url()}`);
      const folded = await at.evaluateHandle((one) => one.closest('details:not([open])')?.querySelector('summary') ?? null);
      if (folded.asElement()) {
        check(!await at.evaluate((one) => one.required), `${how}: ${field} is needed in ${form}, and folded away at ${page.url()}`);
        await folded.asElement().tap();
      }
      const [tag, type] = await at.evaluate((one) => [one.tagName, one.type]);
      if (tag === 'SELECT') await at.select(value);
      else if (type === 'radio' || type === 'checkbox') await (await page.$(`${form} [name="${field}"][value="${value}"]`)).evaluateHandle((one) => one.closest('label') ?? one).then((label) => label.asElement().tap());
      else await at.type(value);
    }
    await go(async () => (await page.$(`${form} button`)).tap());
  };

  await page.goto(`${address}/`);
  await fill(writes('new-vehicle'), { name, line: 'quernmoor-packet' });
  check(new URL(page.url()).pathname === `/vehicle/${name}`, `${how}: a new vehicle leads to ${page.url()}`);
  for (const [attribute, value] of [['year', '2007'], ['engine', '2.6'], ['cooler', 'no']]) {
    await fill(writes('tell'), { attribute, value, evidence: 'read' });
    await shows(value, `told ${attribute}`);
  }
  await fill(asks('/list'), { job: 'pan-service' });
  await shows('pan filter', 'list');
  await shows('check first', 'list');
  await shows('stays behind', 'list');
  await page.goto(`${address}/vehicle/${name}`);
  await fill(writes('tell'), { attribute: 'pan_depth', value: '480mm', evidence: 'measured' });  // no pan is so deep
  await shows('was recorded with it', 'the refusal of a value that cannot be');
  await page.goto(`${address}/vehicle/${name}`);
  await fill(writes('tell'), { attribute: 'pan_depth', value: '41 mm', evidence: 'measured' });
  await fill(asks('/list'), { job: 'pan-service' });
  await shows('Q312-1141', 'list after measuring');
  check(!(await text()).includes('Q312-1161'), `${how}: the filter of the other pan is still offered`);
  await follow_order();
  await record();
  await sheet();
  await page.close();

  async function follow_order() {
    await page.goto(`${address}/vehicle/${name}/order?job=pan-service`);
    await shows('84.50', 'order');
    await shows('LD-K4142', 'order');
  }
  async function record() {
    await page.goto(`${address}/vehicle/${name}/record`);
    await fill(writes('record/start'), { job: 'pan-service' });
    await shows('Pan off, filter, fresh fluid, begun', 'job begun');
    await fill(writes('record/part'), { what: 'received', role: 'pan-filter', item: 'LD-K4142', seller: 'Pier' });
    await shows('received', 'part recorded');
    await fill(writes('record/part'), { what: 'fitted', role: 'filter-neck-seal', item: 'LD-K4142', made: 'new', seals_out: '2', seals_in: '1', note: '<script>document.title = "taken"</script>' });
    await shows('2 came out and 1 went in', 'seals counted');
    await shows('<script>document.title = "taken"</script>', 'markup stays text');
    check(await page.title() !== 'taken', `${how}: a script in a note was run`);
  }
  async function sheet() {
    await page.goto(`${address}/vehicle/${name}`);
    await follow('Sheets to print');
    await fill(asks('/sheet'), { kind: 'job' });
    await shows('Job sheet', 'sheet');
    await shows('Q312-1141', 'sheet');
    await follow('Back to the vehicle');
    await follow('Sheets to print');
    await fill(asks('/sheet'), { kind: 'history', paper: 'letter' });
    await shows('seals 2 out, 1 in', 'history');
    check(casebound('sheet', name, 'history').replace(/\s+/g, ' ').includes('seals 2 out, 1 in'), `${how}: the command line knows nothing of it`);
  }
}

// A phone in the yard: let in once, and only to look. 127.0.0.2 stands for the yard's network.
async function phone_looks(browser) {
  const served = await serve('--listen', '127.0.0.2', '--allow-lan');
  try {
    const phone_one = await browser.createBrowserContext(), page = await phone_one.newPage();
    await page.setViewport(phone);
    await page.goto(served.entry);
    await Promise.all([page.waitForNavigation(), page.tap('main button')]);
    await Promise.all([page.waitForNavigation(), page.tap('main a')]);
    check((await page.$eval('main', (main) => main.innerText)).includes('bookvan'), 'the phone does not see the yard');
    for (const path of ['/', '/vehicle/bookvan', '/vehicle/tellvan/record', '/offers', '/vehicle/bookvan/list?job=pan-service']) {
      const reply = await page.goto(new URL(path, served.entry).href);
      check(reply.status() === 200, `the phone at ${path}: status ${reply.status()}`);
      check(await page.$('form[method=post]') === null, `the phone at ${path} is shown a form that writes`);
    }
    const phone_two = await browser.createBrowserContext(), other = await phone_two.newPage();
    check((await other.goto(served.entry)).status() === 401, 'a token lets in a second phone');
    await phone_one.close();
    await phone_two.close();
  } finally {
    await served.stop();
  }
}

await run(async (browser, address) => {
  await walk(browser, address, true);
  await walk(browser, address, false);
  await phone_looks(browser);
  console.log('walked twice, and looked from a phone');
});
