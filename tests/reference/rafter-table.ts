/**
 * Framing-square rafter table: inches per foot of run, as printed, for a rise of so many inches per foot.
 *
 * Sources. common: first line of a framing square, instructables.com, "How to make a common rafter for any width structure",
 * step 4; the figures for 7, 8, 12, 13 and 16 also in US Navy NAVEDTRA 14044 vol. 2 figs 2-17 and 2-52, Griffith, Carpentry
 * (1916) App. IV, and US Army EN0069 fig. 2-16. hip: Osborne, "Tables 1: Rafter Table", daveosborne.com, 2 to 8 and 10 to 12;
 * 9 and 13 to 18 are from memory of common squares, and agree with the printed factors below.
 */
export const rafterTable: readonly {
  readonly rise: number;
  readonly common: string;
  readonly hip: string;
  readonly hipFromMemory?: true;
}[] = [
  { rise: 2, common: '12.17', hip: '17.09' },
  { rise: 3, common: '12.37', hip: '17.23' },
  { rise: 4, common: '12.65', hip: '17.44' },
  { rise: 5, common: '13.00', hip: '17.69' },
  { rise: 6, common: '13.42', hip: '18.00' },
  { rise: 7, common: '13.89', hip: '18.36' },
  { rise: 8, common: '14.42', hip: '18.76' },
  { rise: 9, common: '15.00', hip: '19.21', hipFromMemory: true },
  { rise: 10, common: '15.62', hip: '19.70' },
  { rise: 11, common: '16.28', hip: '20.22' },
  { rise: 12, common: '16.97', hip: '20.78' },
  { rise: 13, common: '17.69', hip: '21.38', hipFromMemory: true },
  { rise: 14, common: '18.44', hip: '22.00', hipFromMemory: true },
  { rise: 15, common: '19.21', hip: '22.65', hipFromMemory: true },
  { rise: 16, common: '20.00', hip: '23.32', hipFromMemory: true },
  { rise: 17, common: '20.81', hip: '24.02', hipFromMemory: true },
  { rise: 18, common: '21.63', hip: '24.74', hipFromMemory: true },
];

/**
 * Per inch of rise on 12: angle and hip factor (RoofOnline, "Hip and valley factor table"), slope factor (RoofGenius trade
 * page). Left out: the printed figures whose last digit disagrees with the formula (3, 4 and 15 for the hip, 9 for the angle
 * of the second table).
 */
export const pitchTable: readonly {
  readonly rise: number;
  readonly angle: string;
  readonly slope?: string;
  readonly hip?: string;
}[] = [
  { rise: 1, angle: '4.76', slope: '1.0035', hip: '1.4167' },
  { rise: 2, angle: '9.46', slope: '1.0138', hip: '1.4240' },
  { rise: 3, angle: '14.04', slope: '1.0308' },
  { rise: 4, angle: '18.43', slope: '1.0541' },
  { rise: 5, angle: '22.62', slope: '1.0833', hip: '1.4743' },
  { rise: 6, angle: '26.57', slope: '1.1180', hip: '1.5000' },
  { rise: 7, angle: '30.26', slope: '1.1577', hip: '1.5298' },
  { rise: 8, angle: '33.69', slope: '1.2019', hip: '1.5635' },
  { rise: 9, angle: '36.87', slope: '1.2500', hip: '1.6008' },
  { rise: 10, angle: '39.81', slope: '1.3017', hip: '1.6415' },
  { rise: 11, angle: '42.51', slope: '1.3566', hip: '1.6853' },
  { rise: 12, angle: '45', slope: '1.4142', hip: '1.7321' },
  { rise: 13, angle: '47.29', hip: '1.7815' },
  { rise: 14, angle: '49.4', hip: '1.8333' },
  { rise: 15, angle: '51.34' },
  { rise: 16, angle: '53.13', hip: '1.9437' },
  { rise: 17, angle: '54.78', hip: '2.0017' },
  { rise: 18, angle: '56.31', hip: '2.0616' },
  { rise: 19, angle: '57.72', hip: '2.1230' },
  { rise: 20, angle: '59.04', hip: '2.1858' },
];
