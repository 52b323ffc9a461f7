// A ball, a head or a turf of the coach's own: a file of the command line, kept beside the pupil's and named by it.
import { asBytes, uniqueName } from "./store.js";

// Where a pupil's document names a file of each format; one of air is named by a ball's.
export const PLACES = { "loftwright-ball/1": "ball", "loftwright-head/1": "club/head", "loftwright-turf/1": "conditions/turf", "loftwright-aero/1": undefined };

// Of a dropped or picked file: { name, format, bytes } when it is such a model, else nothing.
export async function modelIn(file) {
  const bytes = asBytes(await file.arrayBuffer());
  try {
    const { format } = JSON.parse(new TextDecoder().decode(bytes));
    return format in PLACES ? { name: file.name, format, bytes } : undefined;
  } catch {
    return undefined;
  }
}

// Keeps it, in place of the one of the same name and format, and has the pupil use it.
export function takeModel(pupil, model) {
  const models = (pupil.models ??= []);
  const before = models.findIndex((one) => one.name === model.name && one.format === model.format);
  const kept = before < 0 ? { ...model, name: uniqueName(pupil, model.name, "model.json") } : model;
  if (before < 0) models.push(kept);
  else models[before] = kept;
  const place = PLACES[kept.format];
  if (place) {
    const path = place.split("/");
    const within = path.length === 1 ? pupil.document : (pupil.document[path[0]] ??= {});
    within[path.at(-1)] = kept.name;
  }
  return kept;
}

export const modelsAt = (pupil, place) => (pupil.models ?? []).filter((one) => PLACES[one.format] === place).map((one) => one.name);
export const modelFiles = (pupil) => Object.fromEntries((pupil.models ?? []).map(({ name, bytes }) => [name, bytes]));
