import { normalQuantile } from '@keelrow/quant';

/** Half the width of an 80% range in standard errors: Φ⁻¹(0.9) = 1.2816. */
export const halfOf80 = normalQuantile(0.9);
