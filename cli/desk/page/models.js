// A ball, a head or a turf of the coach's own: a file of the command line, kept beside the pupil's and named by it.
import { asBytes, uniqueName } from "./store.js";

// Where a pupil's document names a file of each kind; one of air is named by a ball's.
export const PLACES = { ball: "ball", head: "club/head", turf: "conditions/turf", aero: undefined };

// Of a dropped or picked file: { name, kind, bytes } when it is such a model, else nothing.
export async function modelIn(file) {
  const bytes = asBytes(await file.arrayBuffer());
  try {
    const [, kind] = /^loftwright-(\w+)\//.exec(JSON.parse(new TextDecoder().decode(bytes)).format);
    return kind in PLACES ? { name: file.name, kind, bytes } : undefined;
  } catch {
    return undefined;
  }
}

// Keeps it, in place of the one of the same name and kind, and has the pupil use it.
export function takeModel(pupil, model) {
  const models = (pupil.models ??= []);
  const before = models.findIndex((one) => one.name === model.name && one.kind === model.kind);
  const kept = before < 0 ? { ...model, name: uniqueName(pupil, model.name, "model.json") } : model;
  if (before < 0) models.push(kept);
  else models[before] = kept;
  const place = PLACES[kept.kind];
  if (place) {
    const path = place.split("/");
    const within = path.length === 1 ? pupil.document : (pupil.document[path[0]] ??= {});
    within[path.at(-1)] = kept.name;
  }
  return kept;
}

export const modelsAt = (pupil, place) => (pupil.models ?? []).filter((one) => PLACES[one.kind] === place).map((one) => one.name);
export const modelFiles = (pupil) => Object.fromEntries((pupil.models ?? []).map(({ name, bytes }) => [name, bytes]));
