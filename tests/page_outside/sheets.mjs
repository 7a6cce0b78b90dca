// Every sheet printed by Chromium on A4 and US Letter, and read back line by line with pdftotext.
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { casebound, check, home, run } from './served.mjs';

const sizes = { a4: [595, 842], letter: [612, 792] };  // points: ISO 216; ANSI Y14.1 A
const squeezed = (text) => text.replace(/\s+/g, '');

function pages_of(file) {
  const text = execFileSync('pdftotext', ['-raw', '-enc', 'UTF-8', file, '-'], { encoding: 'utf8' });
  return text.split('\f').slice(0, -1);
}

function check_pages(name, pages, sheet) {
  pages.forEach((text, at) => {
    const flat = squeezed(text);
    for (const [what, part] of Object.entries({ vehicle: sheet.vehicle, 'catalog and date': sheet.made, 'its label': sheet.label, 'its number': `page ${at + 1} of ${pages.length}` }))
      check(flat.includes(squeezed(part)), `${name}: page ${at + 1} does not show ${what}: "${part}"`);
  });
}

// Nothing is lost, nothing is cut: every row stands whole on one page, in order, under its table's head.
function check_rows(name, pages, sheet) {
  const flat = pages.map(squeezed);
  let page = 0, from = 0;
  const find = (text, what) => {
    const wanted = squeezed(text);
    if (!wanted) return;
    for (let at = page; at < flat.length; ++at) {
      const found = flat[at].indexOf(wanted, at === page ? from : 0);
      if (found < 0) continue;
      page = at;
      from = found + wanted.length;
      return;
    }
    check(false, `${name}: ${what} is not whole on one page: "${text}"`);
  };
  for (const text of sheet.lead) find(text, 'a line above the tables');
  for (const table of sheet.tables) {
    find(table.title, 'a title');
    if (table.lead) find(table.lead, 'a line');
    let headed = -1;
    for (const row of table.rows) {
      find(row.join(' '), 'a row');
      if (page !== headed) {
        const head = squeezed(table.head.join(' ')), at = flat[page].lastIndexOf(head, from);
        check(at >= 0, `${name}: page ${page + 1} does not repeat the head "${table.head.join(' ')}"`);
        headed = page;
      }
    }
  }
}

const read_sheet = () => {
  const words = (one) => one.innerText.trim();
  const tables = [];
  for (const title of document.querySelectorAll('h2')) {
    const made = { title: words(title), lead: '', head: [], rows: [] };
    for (let next = title.nextElementSibling; next && next.tagName !== 'H2'; next = next.nextElementSibling) {
      if (next.tagName === 'P') made.lead = words(next);
      if (next.tagName === 'UL') made.rows = [...next.children].map((one) => [words(one)]);
      if (next.tagName !== 'TABLE') continue;
      made.head = [...next.tHead.rows[0].cells].map(words);
      made.rows = [...next.tBodies[0].rows].map((row) => [...row.cells].map(words));
    }
    tables.push(made);
  }
  const { vehicle, made, label } = document.documentElement.dataset;
  return { vehicle, made, label, lead: [...document.querySelectorAll('h1, h1 ~ p')].filter((one) => !one.previousElementSibling?.matches('h2')).map(words).slice(0, 3), tables };
};

// 150 entries, long and short, with markup in them: many pages.
function fill_history() {
  for (let i = 0; i < 50; ++i)
    casebound('vehicle', 'tell', 'tellvan', `pan_depth=${i % 2 ? 41 : 61}mm`, '--evidence', 'measured', '--note', `reading ${i}: ${'rail to floor, away from the plug; '.repeat((i * 7) % 25)}<b>end</b> & done`);
}

await run(async (browser, address) => {
  fill_history();
  casebound('vehicle', 'tell', 'tellvan', 'pan_depth=41mm', '--evidence', 'measured');
  let count = 0;
  for (const kind of ['job', 'order', 'bench-match', 'history', 'disclosure'])
    for (const paper of ['a4', 'letter']) {
      const name = `${kind} on ${paper}`;
      const html = join(home, `${kind}-${paper}.html`), file = join(home, `${kind}-${paper}.pdf`);
      const jobs = ['history', 'disclosure'].includes(kind) ? [] : ['pan-service', ...(kind === 'order' ? [] : ['engine-mounts'])];
      writeFileSync(html, casebound('sheet', 'tellvan', kind, ...jobs, '--html', '--paper', paper));
      const page = await browser.newPage();
      await page.goto(`file://${html}`);
      await page.pdf({ path: file, preferCSSPageSize: true });
      const sheet = await page.evaluate(read_sheet);
      const pages = pages_of(file);
      const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }));
      check(Math.abs(width - sizes[paper][0]) < 1 && Math.abs(height - sizes[paper][1]) < 1, `${name}: the paper is ${width} x ${height} points`);
      check(sheet.label === 'invented demo data' && sheet.vehicle.startsWith('tellvan: ') && /made 2026-11-25; catalog: .*demo-fleet \d/.test(sheet.made), `${name}: what stands on every page: ${JSON.stringify(sheet)}`);
      check(sheet.tables.length > 0 && sheet.tables.some((table) => table.rows.length > 0), `${name}: nothing on it`);
      check_pages(name, pages, sheet);
      check_rows(name, pages, sheet);
      if (kind === 'history') check(pages.length >= 4, `${name}: ${pages.length} pages do not try the page breaks`);
      const colours = await page.evaluate(() => [...new Set([...document.querySelectorAll('body, body *')].flatMap((one) => [getComputedStyle(one).color, getComputedStyle(one).backgroundColor, getComputedStyle(one).borderTopColor]))].sort().join(' '));
      check(colours === 'rgb(0, 0, 0) rgba(0, 0, 0, 0)', `${name}: not black on white: ${colours}`);
      // The served sheet is the same document with its style linked.
      await page.goto(`${address}/vehicle/tellvan/sheet?kind=${kind}&paper=${paper}${jobs.map((job) => `&job=${job}`).join('')}`);
      await page.pdf({ path: file, preferCSSPageSize: true });
      const served = pages_of(file);
      check(served.map(squeezed).join('\f') === pages.map(squeezed).join('\f'), `${name}: served and written sheet print differently`);
      await page.close();
      count += pages.length;
    }
  // The work of one job is two pages at most, and its parts stand on the first; a disclosure does not end with a page of a sentence.
  for (const paper of ['a4', 'letter']) {
    const printed = async (...words) => {
      const html = join(home, 'short.html'), file = join(home, 'short.pdf');
      writeFileSync(html, casebound('sheet', ...words, '--html', '--paper', paper));
      const page = await browser.newPage();
      await page.goto(`file://${html}`);
      await page.pdf({ path: file, preferCSSPageSize: true });
      await page.close();
      return pages_of(file);
    };
    const job = await printed('bookvan', 'job', 'pan-service');
    check(job.length <= 2, `the job sheet of pan service on ${paper} has ${job.length} pages`);
    check(job[0].includes('cooler-line seal') || squeezed(job[0]).includes('cooler-lineseal'), `its parts are not all on the first page of ${paper}`);
    const last = (await printed('tellvan', 'disclosure')).at(-1);
    check(last.includes('Signatures') && last.includes('For the seller'), `the last page of the disclosure on ${paper} parts the seller's reminder from the signatures: ${last}`);
  }
  console.log(`${count} pages read back`);
});
