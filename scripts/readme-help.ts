import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { commandHelp, commands } from '../src/cli/commands.ts';

const readme = fileURLToPath(new URL('../README.md', import.meta.url));
const place = /(<!-- help: [^>]*-->\n)[\s\S]*?(<!-- \/help -->)/;

/** The README with the help of every command in its place. */
export function withHelp(text: string): string {
  const help = commands.map((command) => `\`\`\`text\n${commandHelp(command)}\`\`\`\n`).join('\n');
  return text.replace(place, (_, before: string, after: string) => before + help + after);
}

/** Writes the help into the README: `node scripts/run.mjs scripts/readme-help.ts`. */
export async function main(): Promise<number> {
  writeFileSync(readme, withHelp(readFileSync(readme, 'utf8')));
  return 0;
}
