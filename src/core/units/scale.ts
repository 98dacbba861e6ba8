import { fail, type Result, succeed } from '../issue.ts';
import { amountValue, plainText, readAmount } from './amount-text.ts';

/** Model size over real size, from a number or a text as `1:87`. */
export function parseScale(input: string | number): Result<number> {
  const scale = typeof input === 'number' ? input : ratioOf(plainText(input));
  if (Number.isFinite(scale) && scale > 0) return succeed(scale);
  return fail({
    level: 'error',
    code: 'scale-unreadable',
    path: '',
    message: `${typeof input === 'number' ? input : `"${input}"`} is not a scale.`,
    remedy: 'Write it as "1:87" or as a number over zero: 1 is full size, 0.5 half.',
  });
}

function ratioOf(plain: string): number {
  const [, model = '', real = ''] = /^([\d.]+) ?: ?([\d.]+)$/.exec(plain) ?? [];
  const a = readAmount(model);
  const b = readAmount(real);
  return a && b && b.top > 0 ? amountValue(a) / amountValue(b) : Number.NaN;
}
