// Photos from a phone: taken with what is told, recorded and noted, shown as they are to be turned, printed, and taken
// back; ten phones at once, each with one of a phone's size. No script of the page runs.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { check, home, run } from './served.mjs';

const phone = { width: 360, height: 720, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const writes = (key) => `form:has(input[name="form"][value="${key}"])`;
const look = process.argv[4];  // a folder for pictures of the pages

// What a phone's camera makes: a picture that no coder packs well, with an Exif block that turns it and names a place.
async function photo(browser, name, width, height, turn) {
  const page = await browser.newPage();
  const coded = await page.evaluate((w, h) => {
    const canvas = Object.assign(document.createElement('canvas'), { width: w, height: h });
    const pen = canvas.getContext('2d');
    const noise = pen.createImageData(w, h);
    let x = 7;
    for (let i = 0; i < noise.data.length; i += 1) noise.data[i] = i % 4 === 3 ? 255 : (x ^= x << 13, x ^= x >>> 17, x ^= x << 5) & 255;
    pen.putImageData(noise, 0, 0);
    pen.fillStyle = 'red';
    pen.fillRect(0, 0, w / 4, h / 4);
    return canvas.toDataURL('image/jpeg', 0.92).split(',')[1];
  }, width, height);
  await page.close();
  const bytes = Buffer.from(coded, 'base64');
  const exif = Buffer.concat([Buffer.from('4d4d002a00000008000101120003000000010' + turn.toString(16).padStart(3, '0') + '000000000000', 'hex'), Buffer.from('SECRET-PLACE')]);
  const head = Buffer.from([0xff, 0xe1, 0, exif.length + 8]);
  const path = join(home, name);
  writeFileSync(path, Buffer.concat([bytes.subarray(0, 2), head, Buffer.from('Exif\0\0', 'latin1'), exif, bytes.subarray(2)]));
  return path;
}

await run(async (browser, address) => {
  const small = await photo(browser, 'pan.jpg', 400, 300, 6);
  const large = await photo(browser, 'large.jpg', 3000, 2600, 1);
  const size = readFileSync(large).length;
  check(size > 6e6 && size < 16e6, `the large photo has ${size} bytes, which is no phone's`);
  const page = await browser.newPage();
  await page.setJavaScriptEnabled(false);
  await page.setViewport(phone);
  const text = () => page.$eval('main', (main) => main.innerText.replace(/\s+/g, ' '));
  const submit = async (form) => Promise.all([page.waitForNavigation({ timeout: 30000 }), page.$eval(`${form} button[type="submit"]`, (button) => button.click())]);
  const shot = async (name, at) => {
    if (!look) return;
    if (at) await page.$eval(at, (element) => element.scrollIntoView());
    await page.screenshot({ path: join(look, `${name}.png`) });
  };

  // Told, with the camera's own field.
  await page.goto(`${address}/vehicle/bookvan`);
  const camera = await page.$(`${writes('tell')} [name="photo"][capture="environment"][accept="image/*"]`);
  check(camera, 'the form to tell has no field for the camera');
  await page.select(`${writes('tell')} [name="attribute"]`, 'pan_depth');
  await page.$eval(`${writes('tell')} [name="value"]`, (field) => { field.value = '41mm'; });
  await page.select(`${writes('tell')} [name="evidence"]`, 'measured');
  await camera.uploadFile(small);
  await page.$eval(`${writes('tell')} details`, (details) => { details.open = true; });
  await shot('tell-with-photo', writes('tell'));
  await submit(writes('tell'));
  const told = await page.$eval('ul.told img', (img) => img.getAttribute('src')).catch(() => '');
  check(told.startsWith('/photo/'), `the photo is not beside what is told: ${(await text()).slice(0, 400)}`);
  await page.$eval('ul.told img', (img) => img.scrollIntoView());
  await new Promise((resolve) => setTimeout(resolve, 500));
  const shown = await page.$eval('ul.told img', (img) => [img.naturalWidth, img.naturalHeight, img.clientWidth, img.clientHeight, img.alt]);
  check(shown[0] === 300 && shown[1] === 400, `it is shown as ${shown.slice(0, 2)}, not turned to 300 x 400`);
  check(shown[2] > 40 && shown[3] > shown[2], `it stands there as ${shown.slice(2, 4)}`);
  check(shown[4].includes('pan depth'), `what it shows is not said: ${shown[4]}`);
  check((await page.$eval('html', (html) => html.scrollWidth)) <= phone.width, 'the page is wider than the phone');
  await shot('told-with-photo', 'ul.told img');
  const reply = await page.goto(address + told);
  check(reply.headers()['content-type'] === 'image/jpeg' && reply.headers()['x-content-type-options'] === 'nosniff', 'the photo comes as something else');
  check(!(await reply.buffer()).includes('SECRET'), 'the place is still in it');

  // Recorded, and on the sheets.
  await page.goto(`${address}/vehicle/bookvan/record`);
  await page.select(`${writes('record/proof')} [name="what"]`, 'odometer');
  await page.$eval(`${writes('record/proof')} [name="odometer"]`, (field) => { field.value = '131800'; });
  await (await page.$(`${writes('record/proof')} [name="photo"]`)).uploadFile(small);
  await submit(writes('record/proof'));
  check(await page.$('td .photos img'), 'the photo is not beside the record');
  await shot('recorded-with-photo', 'td .photos img');
  await page.goto(`${address}/vehicle/bookvan/why?item=Q312-1141`);
  check(await page.$('.leaves .photos img'), 'the photo is not in the proof');
  await shot('proof-with-photo', '.leaves .photos img');
  await page.goto(`${address}/vehicle/bookvan/sheet?kind=history`, { waitUntil: 'load' });
  const pdf = join(home, 'history.pdf');
  await page.pdf({ path: pdf, format: 'A4' });
  check((execFileSync('pdfimages', ['-list', pdf], { encoding: 'utf8' }).match(/ image /g) ?? []).length >= 1, 'no photo is in the printed history');
  await page.goto(`${address}/vehicle/bookvan/sheet?kind=disclosure`);
  check(!(await page.$('figure')), 'the disclosure has photos that nobody asked for');

  // A file that is none is refused beside its field.
  writeFileSync(join(home, 'list.jpg'), 'Ref;Price\n');
  await page.goto(`${address}/vehicle/bookvan`);
  await page.select(`${writes('tell')} [name="attribute"]`, 'cooler');
  await page.$eval(`${writes('tell')} [name="value"]`, (field) => { field.value = 'no'; });
  await page.select(`${writes('tell')} [name="evidence"]`, 'measured');
  await (await page.$(`${writes('tell')} [name="photo"]`)).uploadFile(join(home, 'list.jpg'));
  await submit(writes('tell'));
  check((await page.$eval('.fault', (fault) => fault.innerText).catch(() => '')).includes('list.jpg: by its content it is no picture'), 'what is no photo is not refused beside its field');

  // Ten phones at once.
  const phones = await Promise.all(Array.from({ length: 10 }, async () => {
    const one = await browser.newPage();
    await one.setJavaScriptEnabled(false);
    await one.goto(`${address}/vehicle/tellvan`);
    await one.select(`${writes('tell')} [name="attribute"]`, 'cooler');
    await one.$eval(`${writes('tell')} [name="value"]`, (field) => { field.value = 'no'; });
    await one.select(`${writes('tell')} [name="evidence"]`, 'measured');
    await (await one.$(`${writes('tell')} [name="photo"]`)).uploadFile(large);
    return one;
  }));
  const statuses = await Promise.all(phones.map(async (one) => (await Promise.all([
    one.waitForNavigation({ timeout: 60000 }), one.$eval(`${writes('tell')} button[type="submit"]`, (button) => button.click()),
  ]))[0].status()));
  check(statuses.every((status) => status === 200), `ten phones: ${statuses}`);
  await page.goto(`${address}/vehicle/tellvan`);
  const summary = await page.$eval('#photos > summary', (one) => one.innerText).catch(() => '');
  check(summary === 'Photos (10)', `of ten photos there are: ${summary}`);
  check(readdirSync(join(home, 'shop.sqlite.photos')).length === 2, `files: ${readdirSync(join(home, 'shop.sqlite.photos'))}`);

  // Taken back.
  await page.goto(`${address}/vehicle/bookvan`);
  await page.$eval('#photos', (details) => { details.open = true; });
  await shot('photos-of-a-vehicle', '#photos');
  await submit(writes('photo-back/1'));
  check(!(await page.$('section[aria-labelledby="told"] .photos')), 'the photo that was taken back is still shown');
});
