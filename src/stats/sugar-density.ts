/** One row of the table: sugar in % by mass, density in kg/m³ at 20 °C, and whether it was read or remembered. */
export interface SugarRow {
  readonly massPercent: number;
  readonly density: number;
  readonly status: 'seen' | 'memory';
}

/** Up to this sugar content the rows were read in the source; above, they are from memory. */
const READ_UP_TO = 37;

/**
 * Density of sucrose solutions at 20 °C, kg/m³, by % of sugar by mass.
 *
 * Source: 0 to 37 %, Poradnik fizykochemiczny 1974 (read). 40 to 70 %, values of the US National Bureau of
 * Standards circular C440 and of handbooks (memory; a smooth curve through all rows fits within 0.06).
 */
export const SUGAR_DENSITY: readonly SugarRow[] = (
  [
    [0, 998.23],
    [1, 1002.09],
    [2, 1005.99],
    [3, 1009.91],
    [4, 1013.86],
    [5, 1017.84],
    [6, 1021.85],
    [7, 1025.87],
    [8, 1029.93],
    [9, 1034.02],
    [10, 1038.13],
    [11, 1042.28],
    [12, 1046.46],
    [13, 1050.66],
    [14, 1054.9],
    [15, 1059.16],
    [16, 1063.45],
    [17, 1067.78],
    [18, 1072.13],
    [19, 1076.53],
    [20, 1080.94],
    [21, 1085.4],
    [22, 1089.9],
    [23, 1094.41],
    [24, 1098.96],
    [25, 1103.54],
    [26, 1108.17],
    [27, 1112.82],
    [28, 1117.5],
    [29, 1122.23],
    [30, 1126.98],
    [31, 1131.76],
    [32, 1136.59],
    [33, 1141.45],
    [34, 1146.31],
    [35, 1151.27],
    [36, 1156.24],
    [37, 1161.24],
    [40, 1176.4],
    [45, 1202.5],
    [50, 1229.6],
    [55, 1257.5],
    [60, 1286.5],
    [65, 1316.3],
    [70, 1347.2],
  ] as const
).map(([massPercent, density]) => ({
  massPercent,
  density,
  status: massPercent <= READ_UP_TO ? 'seen' : 'memory',
}));
