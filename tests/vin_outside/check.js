// Reads one VIN a line on stdin; prints true or false a line.
'use strict';
const { validate } = require('vin-validator');
const lines = require('fs').readFileSync(0, 'utf8').split('\n');
if (lines[lines.length - 1] === '') lines.pop();
process.stdout.write(lines.map((line) => `${validate(line)}\n`).join(''));
