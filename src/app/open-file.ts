import { openText } from './bench.ts';

export const openFile = async (file: File): Promise<void> => {
  await openText(await file.text(), file.name);
};
