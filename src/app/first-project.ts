import millimetres from '../../shared/samples/chapel-hill.roofs.json';
import inches from '../../shared/samples/harbour-gate.roofs.json';
import type { JsonObject } from './state/file-path.ts';

/** What lies on the table at first: a sample in the maker's own units, inches where they are the custom. */
export const firstProject = (language: string): JsonObject =>
  (language === 'en-US' ? inches : millimetres) as JsonObject;
