// What every check here needs: a folder with the demo fleet and a few vehicles, casebound serving it, and Chromium.
import { spawn, execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import puppeteer from 'puppeteer-core';

export const [program, seed] = process.argv.slice(2);
if (!program || !seed) throw new Error('words: CASEBOUND SEED_DATA [...]');
export const home = mkdtempSync(join(tmpdir(), 'casebound-page-'));
// Under a sanitizer, which keeps what is given back, the bound is loose.
const most_kb = (readFileSync(program).includes('__asan_init') ? 32 : 1) * 64 * 1024;
const environment = { ...process.env, CASEBOUND_HOME: home, CASEBOUND_TODAY: '2026-11-25' };

export function casebound(...words) {
  try {
    return execFileSync(program, words, { env: environment, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
  } catch (failed) {
    if (failed.status === 1 || failed.status === 2) return failed.stdout;
    throw new Error(`${words.join(' ')}: ${failed.stderr}`);
  }
}

const offers = `seller,item,pack,price,available,days,returnable,return_fee,return_days,core,core_days,carriage,free_from,minimum
Gullane,Q312-1141,1,31.00,,2,yes,15%,14,,,6.00,100.00,
Gullane,Q312-1161,1,35.00,,2,yes,15%,14,,,,,
Gullane,Q312-4131,1,6.00,,2,no,,,,,,,
Gullane,Q-QF4-5,1,38.00,,2,yes,,14,,,,,
Gullane,Q312-5116,1,19.00,,2,yes,,14,,,,,
Pier,LD-K4142,1,44.00,,5,yes,20%,30,,,4.50,,
Pier,Q-QF4-5,1,36.00,,5,yes,,30,,,,,
`;

// bookvan is partly known, tellvan is settled and under way, hearvan rests on what was said, milkvan's order is held.
export function prepare() {
  casebound('pack', 'load', ...['filters_seals', 'mounts', 'service_fluids', 'solenoids', 'stabilisers', 'transmission_fluids', 'demo-fleet'].map((pack) => join(seed, pack)));
  writeFileSync(join(home, 'offers.csv'), offers);
  casebound('offer', 'load', join(home, 'offers.csv'));
  casebound('vehicle', 'new', 'bookvan', 'quernmoor-packet', 'year=2007', 'engine=2.6', 'cooler=no', '--evidence', 'read');
  casebound('vehicle', 'new', 'tellvan', 'quernmoor-packet', 'year=2007', 'engine=2.6', 'cooler=no', 'pan_depth=41mm', '--evidence', 'measured');
  casebound('vehicle', 'new', 'hearvan', 'quernmoor-packet', 'year=2007', 'engine=2.6', 'cooler=no', 'pan_depth=41mm', '--evidence', 'said');
  casebound('vehicle', 'new', 'milkvan', 'quernmoor-packet', 'year=2007', 'engine=2.6', 'cooler=no', 'pan_depth=41mm', 'fluid_colour=milky', '--evidence', 'measured');
  casebound('record', 'tellvan', 'start', 'job=pan-service');
  casebound('record', 'tellvan', 'received', 'role=pan-filter', 'item=LD-K4142', 'seller=Pier');
  casebound('record', 'tellvan', 'fitted', 'role=pan-filter', 'item=LD-K4142', 'made=new', 'torque=11Nm', 'note=bolts crosswise');
}

export async function serve(...words) {
  const child = spawn(program, ['page', '--port', '0', '--json', ...words], { env: environment, stdio: ['ignore', 'pipe', 'inherit'] });
  const line = await new Promise((resolve, reject) => {
    createInterface({ input: child.stdout }).once('line', resolve);
    child.once('exit', (code) => reject(new Error(`casebound page ended with ${code}`)));
  });
  const ended = new Promise((resolve) => child.once('exit', (code, signal) => resolve(signal ?? code)));
  return {
    address: JSON.parse(line).addresses[0].replace(/\/$/, ''),
    entry: JSON.parse(line).addresses[1],  // with its token, when a phone may come in
    peak_kb: () => Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))[1]),
    async stop() {
      child.kill('SIGTERM');
      const how = await ended;
      if (how !== 0) throw new Error(`casebound page ended with ${how}, not 0`);
    },
    kill: () => child.kill('SIGKILL'),
  };
}

export function browse() {
  const args = ['--disable-dev-shm-usage', '--disable-gpu', '--no-first-run', '--disable-background-networking'];
  if (process.getuid() === 0) args.push('--no-sandbox');  // Chromium refuses root otherwise; only our own page is opened
  return puppeteer.launch({ executablePath: process.env.CASEBOUND_CHROMIUM ?? '/usr/bin/chromium', headless: true, args, timeout: 60000, protocolTimeout: 120000 });
}

const faults = [];
export function check(holds, claim) {
  if (!holds) faults.push(claim);
  return holds;
}

// Runs all of it, always cleans up, and ends with 1 when a claim failed. `ready` fills the home; nothing: it is empty.
export async function run(body, ready = prepare) {
  let browser, served;
  try {
    ready?.();
    served = await serve();
    browser = await browse();
    await body(browser, served.address);
    await browser.close();
    browser = undefined;
    check(served.peak_kb() < most_kb, `casebound page took ${served.peak_kb()} kB, not under ${most_kb}`);
    await served.stop();
  } catch (error) {
    faults.push(error.stack);
  } finally {
    await browser?.close().catch(() => {});
    served?.kill();
    rmSync(home, { recursive: true, force: true });
  }
  for (const fault of faults) console.error(`FAILED: ${fault}`);
  process.exitCode = faults.length ? 1 : 0;
}
