// Markup and script in every field of every form: it stays text, on every page that shows it, also with scripts on.
import http from 'node:http';
import { casebound, check, run } from './served.mjs';

const payload = `"'><script>window.taken = 1</script><img src="x" onerror="window.taken = 1"><svg onload="window.taken = 1">{{7*7}}`;

function post(address, path, fields) {
  const body = new URLSearchParams(fields).toString();
  return new Promise((resolve, reject) => {
    const asked = http.request(address + path, { method: 'POST', headers: { Origin: address, 'Content-Type': 'application/x-www-form-urlencoded', 'Content-Length': Buffer.byteLength(body) } }, (reply) => {
      let text = '';
      reply.setEncoding('utf8').on('data', (part) => { text += part; }).on('end', () => resolve({ status: reply.statusCode, text }));
    });
    asked.on('error', reject).end(body);
  });
}

// Every form that writes: each of its fields in turn holds the payload, the others what a person would choose.
const forms = () => [...document.querySelectorAll('form[method=post]')].map((form) => ({
  key: form.elements.form?.value ?? form.id,
  fields: [...form.elements].filter((one) => one.name).map((one) => ({
    name: one.name,
    free: one.type === 'text' || one.type === 'date' || one.tagName === 'TEXTAREA' || one.tagName === 'SELECT',
    usual: one.type === 'hidden' ? one.value : one.tagName === 'SELECT' ? [...one.options].map((option) => option.value).find(Boolean) ?? '' : one.type === 'radio' || one.type === 'checkbox' ? one.value : one.required ? '1' : '',
  })),
}));

await run(async (browser, address) => {
  const page = await browser.newPage();
  const paths = ['/', '/vehicle/tellvan', '/vehicle/tellvan/record', '/vehicle/tellvan/decide', '/vehicle/tellvan/cause', '/vehicle/tellvan/list?job=pan-service', '/offers', '/vehicle/bookvan'];
  let posted = 0, kept = 0;
  for (const path of paths) {
    await page.goto(address + path);
    for (const form of await page.evaluate(forms))
      for (const target of form.fields.filter((one) => one.free)) {
        const fields = form.fields.map((one) => [one.name, one === target ? payload : one.usual]).filter(([, value]) => value !== '');
        const reply = await post(address, path, fields);
        ++posted;
        if (reply.status === 303) ++kept;
        check([303, 422, 404].includes(reply.status), `${path}, form ${form.key}, field ${target.name}: status ${reply.status}`);
        check(!/<script|<img|onload="|onerror="/.test(reply.text.replace(/&lt;.*?&gt;/g, '')), `${path}, form ${form.key}, field ${target.name}: markup came back as markup`);
      }
  }
  check(posted > 30, `only ${posted} fields were tried`);
  check(kept > 0, 'nothing of it was kept, so nothing was shown');
  casebound('vehicle', 'tell', 'tellvan', 'pan_depth=41mm', '--evidence', 'measured', '--note', payload);
  const asked = encodeURIComponent(payload);
  for (const path of [...paths, '/due', '/catalog/packs', '/vehicle/tellvan/sheet?kind=history', '/vehicle/tellvan/sheet?kind=disclosure', `/${asked}`, `/vehicle/${asked}`, `/vehicle/tellvan/why?item=${asked}`,
    `/vehicle/tellvan/list?job=${asked}`, `/swap?wanted=${asked}&offered=${asked}`, `/vehicle/tellvan/sheet?kind=${asked}`, `/vehicle/tellvan/sheet?kind=job&paper=${asked}`]) {
    await page.goto(address + path);
    check(await page.evaluate(() => window.taken === undefined && document.querySelectorAll('script, img, svg[onload]').length === 0), `${path}: a script was run, or stands there`);
  }
  console.log(`${posted} fields tried, ${kept} kept`);
});
