import { bench } from '../bench.ts';
import { type FilePath, formatPath } from './file-path.ts';

/** Text that says nothing the file could take stays in its box with the reason. Always false. */
export const refuseText = (path: FilePath, text: string, message: string, remedy: string): false => {
  const key = formatPath(path);
  const { drafts } = bench.store.getState();
  const issue = { level: 'error' as const, code: 'text-refused', path: key, message, remedy };
  bench.store.setState({ drafts: { ...drafts, [key]: { text, issues: [issue] } } });
  return false;
};
