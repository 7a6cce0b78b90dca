// Validates packs with npm `datapackage` and `tableschema`: node check.cjs FOLDER...
// The descriptor against the version 1 profile; every row cast to its type and constraints; primary keys, unique
// columns and foreign keys; sizes and sha256 where they are recorded. Exits 1 with every fault, 0 when there is none.
'use strict'
const crypto = require('crypto')
const fs = require('fs')
const path = require('path')
const { Package, validate } = require('datapackage')
const { Schema } = require('tableschema')

function sealFaults(folder, resource) {
  const { path: file, bytes, hash } = resource.descriptor
  const content = fs.readFileSync(path.join(folder, file))
  const faults = []
  if (bytes !== undefined && bytes !== content.length) faults.push(`${file}: ${content.length} bytes, ${bytes} are recorded`)
  const sha256 = 'sha256:' + crypto.createHash('sha256').update(content).digest('hex')
  if (hash !== undefined && hash !== sha256) faults.push(`${file}: its sha256 is another than recorded`)
  return faults
}

async function rowFaults(resource) {
  const faults = []
  const schema = await Schema.load(resource.descriptor.schema)
  for (const error of schema.errors) faults.push(`${resource.name}: schema: ${error.message}`)
  const seen = new Map()
  const key = schema.primaryKey
  const stream = await resource.iter({ keyed: true, cast: true, relations: false, forceCast: true })
  for (;;) {
    const next = await stream.next()
    if (next.done) break
    const row = next.value
    if (row instanceof Error) {
      for (const error of row.errors && row.errors.length ? row.errors : [row]) faults.push(`${resource.name}: row ${row.rowNumber}: ${error.message}`)
      continue
    }
    if (key.length === 0) continue
    const text = JSON.stringify(key.map((name) => row[name]))
    if (seen.has(text)) faults.push(`${resource.name}: primary key ${text} stands twice`)
    seen.set(text, true)
  }
  return faults
}

async function packFaults(folder) {
  const file = path.join(folder, 'datapackage.json')
  const { valid, errors } = await validate(JSON.parse(fs.readFileSync(file, 'utf8')))
  const faults = valid ? [] : errors.map((error) => `descriptor: ${error.message}`)
  const pack = await Package.load(file, { strict: false })
  if (!pack.valid) return faults.concat(pack.errors.map((error) => `descriptor: ${error.message}`))
  if (pack.descriptor.$schema !== 'https://datapackage.org/profiles/2.0/datapackage.json') faults.push('descriptor: $schema is not that of version 2')
  for (const resource of pack.resources) {
    if (!resource.tabular) faults.push(`${resource.name}: not a table`)
    faults.push(...sealFaults(folder, resource), ...(await rowFaults(resource)))
    try {
      await resource.checkRelations()
    } catch (error) {
      faults.push(`${resource.name}: ${error.message}`)
    }
  }
  return faults
}

async function main(folders) {
  if (folders.length === 0) {
    console.error('usage: node check.cjs FOLDER...')
    return 64
  }
  let wrong = 0
  for (const folder of folders) {
    const faults = await packFaults(folder)
    for (const fault of faults) console.error(`${folder}: ${fault}`)
    console.log(`${folder}: ${faults.length === 0 ? 'valid' : faults.length + ' faults'}`)
    wrong += faults.length
  }
  return wrong === 0 ? 0 : 1
}

main(process.argv.slice(2)).then(
  (exit) => process.exit(exit),
  (error) => {
    console.error(error)
    process.exit(1)
  })
