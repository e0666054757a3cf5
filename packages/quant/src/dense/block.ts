/** Rows of a dense block within a larger array: row i starts at `offset + i * stride`. */
export interface Block {
  readonly data: Float64Array;
  readonly offset: number;
  readonly stride: number;
}
