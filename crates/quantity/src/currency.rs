//! Currencies, by their three-letter code of ISO 4217.

use std::fmt;

/// A currency by its three-letter code.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Currency([u8; 3]);

/// Codes of ISO 4217 in use (from memory; the standard's list is maintained by its agency). The florin of Aruba is left
/// out, because its code is AWG, which on a vehicle is a wire gauge.
const CODES: &str = "AED AFN ALL AMD AOA ARS AUD AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF \
    CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG \
    HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD \
    MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF \
    SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS \
    VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW";

impl Currency {
    /// The currency of a code in capital letters, if ISO 4217 lists it.
    pub fn from_code(code: &str) -> Option<Self> {
        let bytes: [u8; 3] = code.as_bytes().try_into().ok()?;
        CODES.split_ascii_whitespace().any(|known| known == code).then_some(Self(bytes))
    }

    /// The three-letter code.
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or_default()
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.code())
    }
}
