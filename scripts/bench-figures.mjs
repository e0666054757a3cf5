// How figures of the benchmarks are written.
export const seconds = (value) => `${value < 10 ? value.toFixed(2) : value.toFixed(0)} s`;
export const whole = (value) => Math.round(value).toLocaleString('en-US');
export const memory = (megabytes) => `${whole(megabytes)} MB`;
