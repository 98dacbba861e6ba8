import fontUrl from '../../../assets/fonts/ibm-plex-sans-regular.ttf?url';

/** The typeface of the printed pages, from this site. */
export const fontBytes = async (): Promise<Uint8Array> => {
  const answer = await fetch(fontUrl);
  if (!answer.ok) throw new Error(`the typeface could not be loaded (${answer.status})`);
  return new Uint8Array(await answer.arrayBuffer());
};
