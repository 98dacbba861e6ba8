import type { LayerKind } from '../../core/project/project.ts';

const titles: Readonly<Record<LayerKind, string>> = { board: 'Board', shell: 'Folded shell', cover: 'Paper cover' };

/** What the layers of a roof are called, from the inside out; those of one sort are numbered. */
export const layerTitles = (layers: readonly LayerKind[]): readonly string[] =>
  layers.map((as, i) => {
    const isOnly = layers.filter((one) => one === as).length === 1;
    return isOnly ? titles[as] : `${titles[as]} ${layers.slice(0, i + 1).filter((one) => one === as).length}`;
  });
