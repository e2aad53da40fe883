// Laws by which a drift may be extrapolated beyond a test, and the acceleration of the test over service.
//   linear        g = t                    wear, cycles that each do the same damage
//   square root   g = sqrt(t)              diffusion before it saturates: J. Crank, The Mathematics of Diffusion (1975), 4.3 (from memory)
//   logarithmic   g = log10(1 + t / t1)    relaxation and physical ageing of polymers: L. C. E. Struik (1978) (from memory); t1 is the
//                                          first step of the test
//   Arrhenius      A = exp(Ea / k (1 / T_service - 1 / T_test))    NIST/SEMATECH e-Handbook of Statistical Methods, 8.1.5.1 (from memory)
//   Coffin-Manson  A = (swing_test / swing_service)^n               the same, 8.1.5.3, without its frequency and peak temperature (from memory)
// Service of t does as much as t / A of the test.

import type { Lifetime } from '../../model/schema/build/lifetime'
import type { DriftLaw, ExposureUnit } from '../../model/words/lifetime'

/** Boltzmann's constant, eV/K: exact by the SI of 2019. */
const BOLTZMANN_EV_PER_K = 8.617333262e-5
const KELVIN = 273.15

/** The function of exposure that the drift is proportional to; 0 at 0. `firstStep` is the first exposure above 0, in the same unit. */
export function lawAt(law: DriftLaw, exposure: number, firstStep: number): number {
  switch (law) {
    case 'linear':
      return exposure
    case 'square root':
      return Math.sqrt(exposure)
    case 'logarithmic':
      return Math.log10(1 + exposure / firstStep)
  }
}

/** How much faster a test at one temperature is than service at another, °C; below 1 where service is hotter. */
export function arrheniusFactor({
  activationEnergyEv,
  testC,
  serviceC,
}: NonNullable<Lifetime['arrhenius']>): number {
  const inverse = 1 / (serviceC + KELVIN) - 1 / (testC + KELVIN)
  return Math.exp((activationEnergyEv / BOLTZMANN_EV_PER_K) * inverse)
}

/** How many cycles of service do as much as one of the test. */
export function coffinMansonFactor({
  exponent,
  testSwingC,
  serviceSwingC,
}: NonNullable<Lifetime['coffinManson']>): number {
  return (testSwingC / serviceSwingC) ** exponent
}

/** The acceleration that applies to a test in these units; 1 where none is stated. */
export function accelerationOf({ arrhenius, coffinManson }: Lifetime, unit: ExposureUnit): number {
  if (unit === 'h') return arrhenius === undefined ? 1 : arrheniusFactor(arrhenius)
  return coffinManson === undefined ? 1 : coffinMansonFactor(coffinManson)
}
