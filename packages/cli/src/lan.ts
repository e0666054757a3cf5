import { InputError } from './telling.ts';

/** Where phones are served: an address to listen on and two ports. */
export interface LanPlace {
  readonly host: string;
  readonly port: number;
  readonly trustPort: number;
}

/** The ports that follow the office computer's own; any free ones where that is 0. host: given, or every network. */
export function lanOf(host: string | undefined, port: number): LanPlace {
  if (port > 65533)
    throw new InputError(
      `with --lan the ports ${port + 1} and ${port + 2} are needed`,
      'choose a smaller one',
    );
  return {
    host: host ?? '0.0.0.0',
    port: port === 0 ? 0 : port + 1,
    trustPort: port === 0 ? 0 : port + 2,
  };
}
