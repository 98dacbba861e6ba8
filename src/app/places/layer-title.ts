import type { LayerKind } from '../../core/project/project.ts';

const titles: Readonly<Record<LayerKind, string>> = { board: 'Board', shell: 'Folded shell', cover: 'Paper cover' };

export const layerTitle = (as: LayerKind): string => titles[as];
