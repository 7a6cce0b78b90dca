// The pictures of the README, from the demo fleet: node screenshots.mjs CASEBOUND SEED_DATA FOLDER
import { join } from 'node:path';
import { check, run } from './served.mjs';

const folder = process.argv[4];
if (!folder) throw new Error('words: CASEBOUND SEED_DATA FOLDER');
const phone = { width: 360, height: 720, deviceScaleFactor: 1.5 };

await run(async (browser, address) => {
  const page = await browser.newPage();
  for (const [name, path, size] of [
    ['vehicle-phone', '/vehicle/bookvan', phone],
    ['list-phone', '/vehicle/bookvan/list?job=pan-service', phone],
  ]) {
    await page.setViewport(size);
    const reply = await page.goto(address + path, { waitUntil: 'load' });
    check(reply.ok(), `${path}: status ${reply.status()}`);
    await page.screenshot({ path: join(folder, `${name}.png`), type: 'png' });
  }
});
