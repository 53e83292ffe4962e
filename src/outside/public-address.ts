// Which addresses of the internet may be asked for somebody's calendar: those that are everybody's. Not this machine, not
// the network it stands in, not what is a way to either in disguise. Rows are those of IANA's registries of special-purpose
// addresses (RFC 6890 and its updates) that are not globally reachable, and multicast (RFC 5771, RFC 4291).
import { BlockList, isIP } from 'node:net';

const NOT_PUBLIC_4: [string, number][] = [
  ['0.0.0.0', 8], // this network
  ['10.0.0.0', 8], // private
  ['100.64.0.0', 10], // shared by a provider's customers
  ['127.0.0.0', 8], // loopback
  ['169.254.0.0', 16], // link-local; clouds tell secrets there
  ['172.16.0.0', 12], // private
  ['192.0.0.0', 24], // protocol assignments
  ['192.0.2.0', 24], // documentation
  ['192.88.99.0', 24], // 6to4 relays
  ['192.168.0.0', 16], // private
  ['198.18.0.0', 15], // benchmarks
  ['198.51.100.0', 24], // documentation
  ['203.0.113.0', 24], // documentation
  ['224.0.0.0', 4], // multicast
  ['240.0.0.0', 4], // reserved, and broadcast
];

/** Of IPv6 only 2000::/3 is given out, so that mapped, NAT64, local and multicast ones are outside it; of it not these. */
const NOT_PUBLIC_6: [string, number][] = [
  ['2001::', 23], // protocol assignments, Teredo among them
  ['2001:db8::', 32], // documentation
  ['2002::', 16], // 6to4: an IPv4 address is in it
  ['3fff::', 20], // documentation
];

const notPublic = new BlockList();
for (const [address, bits] of NOT_PUBLIC_4) notPublic.addSubnet(address, bits, 'ipv4');
const notPublic6 = new BlockList();
for (const [address, bits] of NOT_PUBLIC_6) notPublic6.addSubnet(address, bits, 'ipv6');
const givenOut6 = new BlockList();
givenOut6.addSubnet('2000::', 3, 'ipv6');

/** @param address as a resolver gives it, "192.0.2.1" or "2001:db8::1"; anything else is not public */
export function isPublicAddress(address: string): boolean {
  switch (isIP(address)) {
    case 4:
      return !notPublic.check(address, 'ipv4');
    case 6:
      return givenOut6.check(address, 'ipv6') && !notPublic6.check(address, 'ipv6');
    default:
      return false;
  }
}
