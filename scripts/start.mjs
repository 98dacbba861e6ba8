/** Builds the bench and serves it on this machine: `npm start [-- --port 4173] [-- --open]`. */
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { build, preview } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
const { values } = parseArgs({
  options: { port: { type: 'string', default: '4173' }, open: { type: 'boolean', default: false } },
});

process.stderr.write('Building the bench …\n');
await build({ root, logLevel: 'warn' });
const server = await preview({
  root,
  logLevel: 'warn',
  preview: { port: Number(values.port), strictPort: false, host: '127.0.0.1', open: values.open },
});
const address = server.resolvedUrls?.local[0];
process.stdout.write(`\n  Spirewright is ready at ${address}\n  Stop it with Ctrl+C.\n\n`);
