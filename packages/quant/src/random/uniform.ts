/** Draws of the uniform distribution on the open interval (0, 1). */
export type Uniform = () => number;
