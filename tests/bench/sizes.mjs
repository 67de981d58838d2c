// What travels over the network, compressed as hosts do: node sizes.mjs <build> <build to compare with>

import { readFileSync } from 'node:fs';
import { brotliCompressSync } from 'node:zlib';

function measure(folder) {
  const page = readFileSync(`${folder}/index.html`, 'utf8');
  const worker = readFileSync(`${folder}/sw.js`, 'utf8');
  const kept = [...worker.matchAll(/^ {2}\['([^']+)', /gm)].map(match => match[1]);
  const sizes = kept.map(path => {
    const bytes = readFileSync(`${folder}/${path === './' ? 'index.html' : path}`);
    const first = path === './' || page.includes(`"${path}"`) || page.includes(`"./${path}"`);
    return { path, first, raw: bytes.length, brotli: brotliCompressSync(bytes).length };
  });
  const sum = (files, size) => files.reduce((total, file) => total + file[size], 0);
  const part = wanted => {
    const files = sizes.filter(wanted);
    return [sum(files, 'raw'), sum(files, 'brotli')];
  };
  return {
    'program (wasm), at once': part(file => file.first && file.path.endsWith('.wasm')),
    'program (wasm), right after': part(file => !file.first && file.path.endsWith('.wasm')),
    'glue (js of wasm-bindgen)': part(file => /-[0-9a-f]{8,}\.js$/.test(file.path)),
    'first load': part(file => file.first),
    'all that is kept on the device': part(() => true),
  };
}

const [build, floor] = process.argv.slice(2).map(measure);
const show = ([raw, brotli]) => [raw, brotli].map(n => n.toLocaleString('en').padStart(11)).join(' ');
console.log(`${''.padEnd(32)}${'bytes'.padStart(11)} ${'brotli'.padStart(11)}   floor: bytes ${'brotli'.padStart(11)}`);
for (const name of Object.keys(build)) {
  console.log(`${name.padEnd(32)}${show(build[name])}   ${show(floor[name])}`);
}
