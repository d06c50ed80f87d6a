// Prints the rows of a Parquet file, one JSON array a line, with hyparquet from NODE_PATH.
import { existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'
import { pathToFileURL } from 'node:url'

const home = (process.env.NODE_PATH ?? '').split(delimiter)
  .find(d => d && existsSync(join(d, 'hyparquet')) && existsSync(join(d, 'hyparquet-compressors')))
if (!home) process.exit(3) // no reader here
const load = name => import(pathToFileURL(join(home, name, 'src', name === 'hyparquet' ? 'node.js' : 'index.js')).href)
const { asyncBufferFromFile, parquetRead } = await load('hyparquet')
const { compressors } = await load('hyparquet-compressors')
const file = await asyncBufferFromFile(process.argv[2])
await parquetRead({
  file, compressors, rowFormat: 'array', onComplete: rows => {
    for (const row of rows) {
      console.log(JSON.stringify(row.map(v => typeof v === 'bigint' ? Number(v) : v ?? null)))
    }
  },
})
