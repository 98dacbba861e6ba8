import { useMemo } from 'react';
import { useStore } from 'zustand';
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

/** What the bench shows of a file; nothing until the workshop is there to read it. */
const read = (file: JsonObject): Reading => {
  const workshop = workshopNow();
  if (workshop === null) return notRead;
  reader ??= createReader(workshop.resolveProject, workshop.produce);
  return reader(file);
};

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

export const readNow = (): Reading => read(bench.store.getState().file);

export const useBench = <T>(pick: (state: BenchState) => T): T => useStore(bench.store, pick);

export const useReading = (): Reading => {
  const file = useBench((state) => state.file);
  const workshop = useWorkshop();
  // The same file reads otherwise once the workshop is there.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
  return useMemo(() => read(file), [file, workshop]);
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
