/** Forms of the names that this program gives to what it keeps in an output folder; others are not its own. */

const UUID = '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}';
const ADDRESS = '[0-9a-f]{64}';

const OWNER = new RegExp(`^${UUID}$`);
const CLAIM = new RegExp(`^${ADDRESS}(\\.${UUID})?$`);
const UNDER_WAY = new RegExp(`^(owner|${ADDRESS}\\.(png|tif)(\\.json)?|\\.tenter-[0-9a-f-]+\\.part)$`);

/** The id of an owner. */
export function isOwnerId(name: string): boolean {
  return OWNER.test(name);
}

/** A claim, also one that was moved away to be looked at. */
export function isClaimName(name: string): boolean {
  return CLAIM.test(name);
}

/** A file in the work folder of an owner. */
export function isUnderWay(name: string): boolean {
  return UNDER_WAY.test(name);
}
