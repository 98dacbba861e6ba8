import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { Issue } from '../core/issue.ts';
import { type MadeRoof, type Production, produce } from '../core/pipeline.ts';
import { readProject, resolveProject, writeProject } from '../core/project/read-project.ts';
import { defaultRuler, type Ruler, rulers, type Units } from '../core/units/units.ts';
import { samples } from './samples.ts';
import { type Bench, type BenchState, createBench } from './state/bench-store.ts';
import { blankProject } from './state/blank-project.ts';
import { getAt, type JsonObject } from './state/file-path.ts';
import { createReader, type Reading } from './state/reading.ts';

/** The file as the store keeps it: plain JSON that `readProject` has taken. */
const asTyped = (text: string): { readonly file: JsonObject | null; readonly issues: readonly Issue[] } => {
  const read = readProject(text);
  return read.ok
    ? { file: read.value.file as unknown as JsonObject, issues: read.issues }
    : { file: null, issues: read.issues };
};

const firstFile = (): JsonObject => {
  // A first look in the maker's own units: inches where they are the custom.
  const usual = navigator.language === 'en-US' ? 'inches' : 'millimetres';
  const sample = samples.find(({ units }) => units === usual) ?? samples[0];
  return (sample && asTyped(sample.text).file) ?? blankProject('in');
};

/** The one bench of this page. */
export const bench: Bench = createBench(firstFile(), resolveProject);

const read = createReader(resolveProject, produce);

/** Opens a project file; true when it reads well. Otherwise the project on the table stays and a slip says why. */
export const openText = (text: string, name = 'This file'): boolean => {
  const { file, issues } = asTyped(text);
  if (file === null) {
    bench.store.setState({ notice: { title: `${name} was not opened.`, issues } });
    return false;
  }
  bench.replace(file);
  return true;
};

export const projectText = (): string => writeProject(bench.store.getState().file as never);

export const readNow = (): Reading => read(bench.store.getState().file);

export const useBench = <T>(pick: (state: BenchState) => T): T => useStore(bench.store, pick);

export const useReading = (): Reading => {
  const file = useBench((state) => state.file);
  return useMemo(() => read(file), [file]);
};

export const useProduction = (): Production | null => useReading().shown;

/** The roof that is worked on as the table shows it. */
export const useChosenRoof = (): MadeRoof | null => {
  const selected = useBench((state) => state.selected);
  return useProduction()?.roofs[selected] ?? null;
};

/** What lengths are shown in; the file's own, also while another part of it cannot be read. */
export const useStyle = (): { readonly units: Units; readonly ruler: Ruler } => {
  const file = useBench((state) => state.file);
  return useMemo(() => {
    const units: Units = getAt(file, ['units']) === 'mm' ? 'mm' : 'in';
    const ruler = rulers.find((one) => one === getAt(file, ['ruler'])) ?? defaultRuler[units];
    return { units, ruler };
  }, [file]);
};
