import { AsnConvert } from '@peculiar/asn1-schema';
import { GeneralName, GeneralSubtree, GeneralSubtrees, NameConstraints } from '@peculiar/asn1-x509';
import { Extension } from '@peculiar/x509';
import type { OwnNames } from './own-addresses.ts';

/** Object identifier of the extension; source: RFC 5280, section 4.2.1.10. */
const nameConstraints = '2.5.29.30';

/**
 * The names for which an authority may vouch at all, as a critical extension: whoever got hold of its key could pass
 * for nothing but a computer of these networks and names.
 */
export function constrainedTo({ addresses, names }: OwnNames): Extension {
  const networks = [...new Set(addresses.map(({ network }) => network))];
  // A kind of name that is not mentioned is not limited: where there is no name, none may be vouched for.
  const permitted = [
    ...networks.map((iPAddress) => new GeneralName({ iPAddress })),
    ...(names.length > 0 ? names : ['invalid']).map((dNSName) => new GeneralName({ dNSName })),
  ];
  const value = new NameConstraints({
    permittedSubtrees: new GeneralSubtrees(permitted.map((base) => new GeneralSubtree({ base }))),
  });
  return new Extension(nameConstraints, true, AsnConvert.serialize(value));
}
