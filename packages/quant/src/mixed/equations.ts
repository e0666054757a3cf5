import { analyse, type SymbolicFactor } from '../sparse/symbolic.ts';
import type { SparseSymmetric } from '../sparse/symmetric.ts';
import type { Design } from './design.ts';
import { byColumn, transposedProduct } from './sparse-rows.ts';

/** Where a term's K⁻¹ enters the equations: entry `at[i]` of their values gets λ × `value[i]`. */
interface Ridge {
  readonly at: Int32Array;
  readonly value: Float64Array;
  /** 1 on the diagonal, 2 off it: how often the entry counts in a trace. */
  readonly times: Uint8Array;
}

/**
 * Henderson's mixed model equations times the residual variance (C. R. Henderson 1950, 1984): (W'RW + Σ λ K⁻¹) b = W'Ry
 * with λ = residual variance / variance of the term. Only λ changes between fits of the same design.
 */
export interface Equations {
  readonly size: number;
  readonly symbolic: SymbolicFactor;
  /** W'RW in the places of the pattern. */
  readonly base: Float64Array;
  readonly ridges: readonly Ridge[];
  readonly rhs: Float64Array;
}

/** Assembles the equations of a design and analyses their pattern once. */
export function assemble(design: Design): Equations {
  const { w, terms, weights, y } = design;
  const size = w.width;
  const columns = byColumn(w);
  const termOf = new Int32Array(size).fill(-1);
  terms.forEach((term, t) => {
    termOf.fill(t, term.offset, term.offset + term.size);
  });

  const columnStart = new Int32Array(size + 1);
  let rowIndex = new Int32Array(4 * size + 1024);
  let base = new Float64Array(rowIndex.length);
  let used = 0;
  const held = new Int32Array(size).fill(-1);
  const sums = new Float64Array(size);
  const ridges = terms.map(({ inverse }) => ({
    at: new Int32Array(inverse.rowIndex.length),
    value: inverse.values,
    times: new Uint8Array(inverse.rowIndex.length),
  }));
  const entryOf = new Int32Array(size);

  for (let j = 0; j < size; j++) {
    // Column j of the upper triangle: products with earlier columns, the diagonal, and the places of K⁻¹.
    let count = 0;
    const touch = (i: number): void => {
      if (held[i] === j) return;
      held[i] = j;
      sums[i] = 0;
      if (used + count >= rowIndex.length) {
        rowIndex = grownInt(rowIndex);
        base = grownFloat(base);
      }
      rowIndex[used + count++] = i;
    };
    touch(j);
    for (let f = columns.start[j]!; f < columns.start[j + 1]!; f++) {
      const k = columns.row[f]!;
      const wx = weights[k]! * columns.value[f]!;
      for (let e = w.start[k]!; e < w.start[k + 1]!; e++) {
        const i = w.column[e]!;
        if (i > j) continue;
        touch(i);
        sums[i] = sums[i]! + wx * w.value[e]!;
      }
    }
    const t = termOf[j]!;
    const inverse = t < 0 ? null : terms[t]!.inverse;
    const offset = t < 0 ? 0 : terms[t]!.offset;
    const first = inverse ? inverse.columnStart[j - offset]! : 0;
    const last = inverse ? inverse.columnStart[j - offset + 1]! : 0;
    for (let e = first; e < last; e++) touch(offset + inverse!.rowIndex[e]!);
    rowIndex.subarray(used, used + count).sort();
    for (let e = used; e < used + count; e++) {
      base[e] = sums[rowIndex[e]!]!;
      entryOf[rowIndex[e]!] = e;
    }
    for (let e = first; e < last; e++) {
      const i = offset + inverse!.rowIndex[e]!;
      ridges[t]!.at[e] = entryOf[i]!;
      ridges[t]!.times[e] = i === j ? 1 : 2;
    }
    used += count;
    columnStart[j + 1] = used;
  }
  const pattern: SparseSymmetric = {
    size,
    columnStart,
    rowIndex: rowIndex.slice(0, used),
    values: base.slice(0, used),
  };
  return {
    size,
    symbolic: analyse(pattern),
    base: pattern.values,
    ridges,
    rhs: transposedProduct(w, weights, y),
  };
}

/** The values of the equations for given λ, one per term. */
export function equationValues(
  equations: Equations,
  lambda: ArrayLike<number>,
  into: Float64Array,
): Float64Array {
  into.set(equations.base);
  equations.ridges.forEach(({ at, value }, t) => {
    const factor = lambda[t]!;
    for (let e = 0; e < at.length; e++) into[at[e]!] = into[at[e]!]! + factor * value[e]!;
  });
  return into;
}

/** tr(K⁻¹ C) over a term's block of the inverse C of the equations, from the selected inverse. */
export function ridgeTrace(equations: Equations, term: number, inverse: Float64Array): number {
  const { at, value, times } = equations.ridges[term]!;
  const { entryTarget } = equations.symbolic;
  let trace = 0;
  for (let e = 0; e < at.length; e++) trace += times[e]! * value[e]! * inverse[entryTarget[at[e]!]!]!;
  return trace;
}

function grownInt(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}

function grownFloat(array: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(2 * array.length);
  larger.set(array);
  return larger;
}
