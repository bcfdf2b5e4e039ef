/** An input is impossible, or has no answer. */
export class DomainError extends RangeError {}
/** No value of the unknown satisfies the inputs inside the bracket that was searched. */
export class NoRootError extends DomainError {}
/** Call this instead of console.warn when a value is outside a source's range. */
export function onRangeWarning(handler: (message: string) => void): void;
/** Refuse what is outside a source's range instead of warning. */
export function strict(yes?: boolean): void;
/** What is known of one argument: its unit, and ranges in that unit; null is an open end. */
export interface ArgumentRecord {
  readonly unit: string;
  readonly symbol: string;
  readonly possible: readonly [number | null, number | null];
  readonly valid?: readonly [number, number];
  readonly typical?: readonly [number, number];
  readonly default?: number | null;
}
/** What is known of one relation. */
export interface RelationRecord {
  readonly summary: string;
  readonly unit: string;
  readonly symbol: string;
  readonly source: string;
  readonly cited: string;
  readonly at: string;
  readonly iterated: boolean;
  /** What the source covers of the result. */
  readonly covers?: readonly [number, number];
  readonly arguments: { readonly [name: string]: ArgumentRecord };
}
/** The record of each relation by its name. */
export const records: { readonly [relation: string]: RelationRecord };
/** What is known of a calculation that gives several numbers at once. */
export interface CalculationRecord {
  readonly summary: string;
  readonly source: string;
  readonly cited: string;
  readonly at: string;
  /** Choices of constants; the first of each is the default. */
  readonly options: { readonly [name: string]: readonly string[] };
  readonly parts: { readonly [name: string]: { readonly unit: string; readonly summary: string } };
  readonly arguments: { readonly [name: string]: ArgumentRecord };
}
/** The record of each calculation by its name. */
export const calculations: { readonly [calculation: string]: CalculationRecord };
