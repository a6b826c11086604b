// What this part answers: instruments and their conversions in the words of the requests.
import { state } from './state.js';

/** @param {string} base @param {string[]} conversions */
export const stacked = (base, conversions) => [base, ...conversions].join('+');

/** @param {string} id */
export const instrument = (id) => state.program.instruments.find((i) => i.id === id);

/** The latches of an instrument with these conversions. @param {string} base @param {string[]} conversions */
export function latchesOf(base, conversions) {
  const found = instrument(base);
  return [...(found?.latches ?? []), ...conversions.flatMap((id) => found?.conversions.find((c) => c.id === id)?.latches ?? [])];
}

/** The instrument's name with its conversions in full. @param {string} base @param {string[]} conversions */
export function fullName(base, conversions) {
  const found = instrument(base);
  const names = conversions.map((id) => found?.conversions.find((c) => c.id === id)?.name ?? id);
  return names.length === 0 ? (found?.name ?? base) : `${found?.name ?? base} with ${names.join(' and ')}`;
}

/** The instruments of the sides of the plan, in words. @returns {string[]} */
export function sideNames() {
  const s = state.settings;
  const names = [fullName(s.base, s.conversions)];
  if (s.with_base) names.push(fullName(s.with_base, s.with_conversions));
  return names;
}
