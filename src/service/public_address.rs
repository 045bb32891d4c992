//! Whether an address is one of the public internet.
//!
//! By the registries of special-purpose addresses that IANA keeps (RFC 6890 and those after it, from memory). std's `is_global` is not
//! stable yet, and a refusal too many is only a webhook that says why.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};

/// Blocks that nobody in the public internet has, each with its length: this network, private, shared by a carrier, loopback, link-local,
/// private, protocols', documentation, 6to4 relays', private, benchmarks', documentation, documentation, multicast, reserved and broadcast.
const NOT_PUBLIC: [([u8; 4], u32); 15] = [
    ([0, 0, 0, 0], 8),
    ([10, 0, 0, 0], 8),
    ([100, 64, 0, 0], 10),
    ([127, 0, 0, 0], 8),
    ([169, 254, 0, 0], 16),
    ([172, 16, 0, 0], 12),
    ([192, 0, 0, 0], 24),
    ([192, 0, 2, 0], 24),
    ([192, 88, 99, 0], 24),
    ([192, 168, 0, 0], 16),
    ([198, 18, 0, 0], 15),
    ([198, 51, 100, 0], 24),
    ([203, 0, 113, 0], 24),
    ([224, 0, 0, 0], 4),
    ([240, 0, 0, 0], 4),
];

/// Of the block that is given out (2000::/3) what is not public: protocols' and Teredo, documentation, 6to4 (which holds an address of the
/// old kind), documentation.
const NOT_PUBLIC_6: [(Ipv6Addr, u32); 4] = [
    (Ipv6Addr::new(0x2001, 0, 0, 0, 0, 0, 0, 0), 23),
    (Ipv6Addr::new(0x2001, 0xdb8, 0, 0, 0, 0, 0, 0), 32),
    (Ipv6Addr::new(0x2002, 0, 0, 0, 0, 0, 0, 0), 16),
    (Ipv6Addr::new(0x3fff, 0, 0, 0, 0, 0, 0, 0), 20),
];

/// Whether an address is public.
pub(super) fn is_public(address: IpAddr) -> bool {
    match address {
        IpAddr::V4(address) => is_public_4(address),
        IpAddr::V6(address) => is_public_6(address),
    }
}

fn is_public_4(address: Ipv4Addr) -> bool {
    let bits = u32::from(address);
    !NOT_PUBLIC.iter().any(|(block, length)| (bits ^ u32::from(Ipv4Addr::from(*block))) >> (32 - length) == 0)
}

fn is_public_6(address: Ipv6Addr) -> bool {
    if let Some(mapped) = address.to_ipv4_mapped() {
        return is_public_4(mapped);
    }
    let bits = u128::from(address);
    let is_in = |block: Ipv6Addr, length: u32| (bits ^ u128::from(block)) >> (128 - length) == 0;
    // Translated to an address of the old kind (RFC 6052), which is what counts.
    if is_in(Ipv6Addr::new(0x64, 0xff9b, 0, 0, 0, 0, 0, 0), 96) {
        let [.., a, b, c, d] = address.octets();
        return is_public_4(Ipv4Addr::new(a, b, c, d));
    }
    is_in(Ipv6Addr::new(0x2000, 0, 0, 0, 0, 0, 0, 0), 3)
        && !NOT_PUBLIC_6.iter().any(|(block, length)| is_in(*block, *length))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_public_addresses_are() {
        for public in
            ["9.9.9.9", "100.63.255.255", "100.128.0.0", "172.15.0.1", "172.32.0.1", "192.0.1.1", "223.255.255.255"]
        {
            assert!(is_public(public.parse().unwrap()), "{public}");
        }
        for public in ["2620:fe::fe", "2a00::1", "::ffff:9.9.9.9", "64:ff9b::909:909", "2001:200::1"] {
            assert!(is_public(public.parse().unwrap()), "{public}");
        }
        for private in [
            "0.0.0.0",
            "10.1.2.3",
            "100.64.0.1",
            "127.0.0.1",
            "127.255.255.254",
            "169.254.169.254",
            "172.16.0.1",
            "172.31.255.255",
            "192.0.0.8",
            "192.0.2.1",
            "192.88.99.1",
            "192.168.0.1",
            "198.19.255.255",
            "198.51.100.1",
            "203.0.113.1",
            "224.0.0.1",
            "239.255.255.255",
            "240.0.0.1",
            "255.255.255.255",
            "::",
            "::1",
            "::ffff:127.0.0.1",
            "::ffff:10.0.0.1",
            "::7f00:1",
            "64:ff9b::a00:1",
            "64:ff9b:1::1",
            "100::1",
            "2001::1",
            "2001:db8::1",
            "2002:7f00:1::",
            "3fff::1",
            "fc00::1",
            "fd12::1",
            "fe80::1",
            "fec0::1",
            "ff02::1",
        ] {
            assert!(!is_public(private.parse().unwrap()), "{private}");
        }
    }
}
