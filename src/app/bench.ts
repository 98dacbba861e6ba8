import { useMemo } from 'react';
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { MadeRoof } from '../core/make-roof.ts';
import type { Production } from '../core/pipeline.ts';
import { writeProject } from '../core/project/write-project.ts';
import { defaultRuler, type Ruler, rulers, type Units } from '../core/units/units.ts';
import { firstProject } from './first-project.ts';
import { loadWorkshop, resolveTyped, useWorkshop, workshopNow } from './load-workshop.ts';
import { type Bench, type BenchState, createBench } from './state/bench-store.ts';
import { getAt, type JsonObject } from './state/file-path.ts';
import { createReader, type Reading } from './state/reading.ts';

/** The one bench of this page. */
export const bench: Bench = createBench(firstProject(navigator.language), resolveTyped);

const notRead: Reading = { shown: null, isCurrent: false, issues: [] };

let reader: ((file: JsonObject) => Reading) | null = null;

/** A better layout of the same pieces than the one that is made at once, by that one. */
const betters = new WeakMap<Production, Production>();
const improved = new WeakMap<Reading, Reading>();
const found = createStore(() => ({ count: 0 }));

/** The same reading with the best layout that is known: the one truth for the table and every export. */
const withBest = (reading: Reading): Reading => {
  const { shown, issues } = reading;
  const better = shown === null ? undefined : betters.get(shown);
  if (shown === null || better === undefined) return reading;
  const known = improved.get(reading);
  if (known?.shown === better) return known;
  const old = new Set(shown.issues);
  const next = { ...reading, shown: better, issues: [...issues.filter((issue) => !old.has(issue)), ...better.issues] };
  improved.set(reading, next);
  return next;
};

/** From now on a better layout stands for the one that was made at once. */
export const setBetter = (base: Production, better: Production): void => {
  betters.set(base, better);
  found.setState(({ count }) => ({ count: count + 1 }));
};

/** What the bench shows of a file, as it is made at once; nothing until the workshop is there to read it. */
const read = (file: JsonObject): Reading => {
  const workshop = workshopNow();
  if (workshop === null) return notRead;
  reader ??= createReader(workshop.resolveProject, workshop.produce, workshop.layRoofs);
  return reader(file);
};

const readBefore = new WeakSet<Production>();

/** Reads a file before it comes to the table, so that it is there at once then. */
export const readAhead = (file: JsonObject): void => {
  const { shown } = read(file);
  if (shown !== null) readBefore.add(shown);
};

/** Whether a production was there before its file came to the table: nobody waits for it. */
export const isReadAhead = (production: Production): boolean => readBefore.has(production);

/** Opens a project file; true when it reads well. Otherwise the project on the table stays and a slip says why. */
export const openText = async (text: string, name = 'This file'): Promise<boolean> => {
  const read = (await loadWorkshop()).readProject(text);
  if (!read.ok) {
    bench.store.setState({ notice: { title: `${name} was not opened.`, issues: read.issues } });
    return false;
  }
  bench.replace(read.value.file as unknown as JsonObject);
  return true;
};

export const projectText = (): string => writeProject(bench.store.getState().file as never);

export const baseNow = (): Reading => read(bench.store.getState().file);

export const readNow = (): Reading => withBest(baseNow());

export const useBench = <T>(pick: (state: BenchState) => T): T => useStore(bench.store, pick);

const useBaseReading = (): Reading => {
  const file = useBench((state) => state.file);
  const workshop = useWorkshop();
  // The same file reads otherwise once the workshop is there.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
  return useMemo(() => read(file), [file, workshop]);
};

export const useReading = (): Reading => {
  const reading = useBaseReading();
  useStore(found, ({ count }) => count);
  return withBest(reading);
};

/** The production as it is made at once, before better layouts are found. */
export const useBase = (): Production | null => useBaseReading().shown;

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
