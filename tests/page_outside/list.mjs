// A seller's list from a phone: the file is chosen and sent, each column is said, what the rows become is looked at,
// confirmed and loaded; the next edition is shown the same way. No script runs.
import { join } from 'node:path';
import { readFileSync, writeFileSync } from 'node:fs';
import { check, home, run } from './served.mjs';

const phone = { width: 320, height: 640, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const writes = (key) => `form:has(input[name="form"][value="${key}"])`;

await run(async (browser, address) => {
  const page = await browser.newPage();
  await page.setJavaScriptEnabled(false);
  await page.setViewport(phone);
  const text = () => page.$eval('main', (main) => main.innerText.replace(/\s+/g, ' '));
  const shows = async (words, step) => check((await text()).includes(words), `${step}: "${words}" is not there: ${(await text()).slice(0, 700)}`);
  const tap = async (at) => Promise.all([page.waitForNavigation({ timeout: 20000 }), (await page.$(at)).tap()]);
  const send = async (bytes) => {
    writeFileSync(join(home, 'june.csv'), bytes, 'latin1');
    await page.goto(`${address}/lists`);
    await page.type(`${writes('list-send')} [name="name"]`, 'kelder');
    await (await page.$(`${writes('list-send')} [name="list"]`)).uploadFile(join(home, 'june.csv'));
    await tap(`${writes('list-send')} button`);
  };

  await page.goto(`${address}/offers`);
  await tap('a[href="/lists"]');
  await send('Ref;Bezeichnung;Warengruppe;Preis\nPF 33.1;\xD6lfilter;pan-filter;12,50\nPF 34;Filter;Sieb;9,80\n');
  await shows('Windows-1252', 'sent');
  await shows('Still to be said who sells', 'sent');
  await page.select('form[action="/lists/kelder"] [name="column-0"]', 'Ref=item');
  await page.type('form[action="/lists/kelder"] [name="seller"]', 'Kelder');
  await tap('form[action="/lists/kelder"] button');
  await shows('row 2: PF-33.1, pan-filter, "\u00d6lfilter", 1 each; offered at 12.50', 'looked at');
  await shows('row 3: `Sieb` is no item kind', 'looked at');
  await tap(`${writes('list-confirm')} button`);
  await tap(`${writes('list-load')} button`);
  check(readFileSync(join(home, 'lists/kelder.not-taken.csv'), 'utf8').includes('Sieb'), 'what is not taken is not in its file');
  await page.goto(`${address}/catalog/item?key=PF-33.1`);
  await shows('PF-33.1', 'loaded');
  await send('Ref;Bezeichnung;Warengruppe;Preis\nPF 33.1;\xD6lfilter;pan-filter;13,50\n');
  await shows('offered at 13.50', 'the next edition');
});
