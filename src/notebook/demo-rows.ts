/**
 * The animals of the demo, all invented, on a smallholding that does not exist. Eggs were drawn once
 * from negative binomial herds with a fixed seed; the odd cups of the last day were set by hand.
 *
 * One line an animal: tag, name, species, class, group, then the four days. A day is chamber 1,
 * chamber 2, nematodirus, eyelid colour, condition, bottle jaw, kilograms; `-` is left empty, and a
 * word after `!` is the cup's status.
 */
export const demoRows = `
W-101|Bracken|sheep|ewe|ewes|0 1 0 1 2.5 - 72.6|0 0 0 1 3.5 - 72.2|2 0 0 1 3 - 73.2|1 0 0 2 3 - 73.5
W-102|Sorrel|sheep|ewe|ewes|0 3 0 1 3 - 62.5|5 9 0 3 2.5 - 64.2|9 8 0 2 3.5 - 64.4|9 9 0 3 3 - 65.3
W-103|Teasel|sheep|ewe|ewes|0 0 0 2 3 - 69.9|0 1 0 1 2.5 - 70.9|0 1 0 2 3 - 71.6|1 0 0 2 3.5 - 72.1
W-104|Yarrow|sheep|ewe|ewes|0 0 0 1 3.5 - 59.9|1 0 0 1 3.5 - 60.5|0 0 0 1 3.5 - 61.2|0 0 0 1 2.5 - 62.0
W-105|Clover|sheep|ewe|ewes|1 4 0 2 3.5 - 62.6|6 4 0 3 3.5 - 63.8|3 2 0 2 3.5 - 63.6|4 2 0 2 3 - 65.5
W-106|Burdock|sheep|ewe|ewes|0 0 0 1 3 - 61.7|0 0 0 1 2.5 - 61.6|0 0 0 1 3.5 - 61.0|1 0 0 1 3 - 62.7
W-107|Campion|sheep|ewe|ewes|1 1 0 1 3 - 69.2|0 1 0 1 3 - 70.6|0 3 0 1 3 - 69.8|4 3!spoiled 0 2 3.5 - 71.7
W-108|Vetch|sheep|ewe|ewes|4 1 0 2 3.5 - 76.7|2 2 0 1 2.5 - 78.1|5 2 0 3 3 - 77.4|1 1 0 2 3.5 - 79.4
W-109|Mallow|sheep|ewe|ewes|0 0 0 1 3 - 60.6|2 1 0 1 3.5 - 62.2|0 0 0 1 3.5 - 61.5|- - - - - - -
W-110|Tansy|sheep|ewe|ewes|3 1 0 1 3 - 61.6|4 2 0 2 2.5 - 62.6|5 2 0 2 3 - 62.4|3 3 0 2 3 - 63.6
W-111|Betony|sheep|ewe|ewes|0 0 0 1 3 - 65.8|1 0 0 1 3 - 65.6|0 1 0 1 3 - 66.1|1 0 0 1 3 - 67.4
W-112|Fescue|sheep|ewe|ewes|0 0 0 1 3 - 58.9|0 0 0 2 3 - 59.2|1 0 0 1 3 - 59.4|2 0 0 2 3 - 60.9
W-113|Sedge|sheep|ewe|ewes|1 0 0 1 3 - 65.0|1 1 0 1 3.5 - 66.4|0 1 0 1 3.5 - 66.2|3 3 0 2 3 - 67.5
L-001|Pip|sheep|lamb|lambs|4 1 1 2 3 - 11.4|7 12 0 3 3 - 18.0|0 1 0 1 3.5 - 21.1|8 5 0 2 3 - 27.3
L-002|Nub|sheep|lamb|lambs|0 0 1 1 3 - 10.5|2 1 1 1 3.5 - 17.8|1 1 0 1 3.5 - 20.8|0 2 0 1 3 - 25.9
L-003|Moss|sheep|lamb|lambs|0 0 0 1 2.5 - 12.5|0 1 1 1 3 - 19.9|0 1 0 1 3 - 23.3|1 - 0 1 3 - 29.6
L-004|Flint|sheep|lamb|lambs|1 0 1 1 3 - 15.9|1 1 1 1 2.5 - 21.7|0 4 0 1 3 - 25.4|7 2 0 2 3 - 32.2
L-005|Rook|sheep|lamb|lambs|1 1 2 1 3 - 15.8|2 1 1 1 2.5 - 23.0|0 0 0 2 3 - 25.4|- - - 3 3.5 - 31.3
L-006|Wisp|sheep|lamb|lambs|2 4 4 3 3 - 11.7|17 11 1 3 3 - 18.7|1 0 0 2 3 - 22.1|7 9 0 2 2.5 - 27.8
L-007|Tarn|sheep|lamb|lambs|1 0 0 1 2.5 - 14.6|3 5 2 2 3 - 21.9|3 6 0 2 3 - 24.5|3 4 0 2 3.5 - 30.3
L-008|Knap|sheep|lamb|lambs|1 1 1 2 3 - 13.2|2 0 1 1 2.5 - 20.0|4 5 0 2 3 - 22.9|0 1 0 1 3 - 28.7
L-009|Burr|sheep|lamb|lambs|0 1 1 2 2.5 - 10.6|0 2 0 2 2.5 - 17.6|3 2 0 2 3.5 - 21.3|0 1 0 1 2.5 - 26.5
L-010|Fleck|sheep|lamb|lambs|0 0 1 1 2.5 - 12.8|0 1 0 1 3 - 20.1|0 0 0 1 3.5 - 23.1|1 1 0 1 3 - 29.0
L-011|Dot|sheep|lamb|lambs|0 0 2 1 3 - 17.8|3 2 2 2 3 - 24.9|0 0 0 1 2.5 - 28.4|- - - 4 3 - 33.8
L-012|Skerry|sheep|lamb|lambs|2 3 1 2 3 - 14.0|4 6 3 3 3.5 - 21.5|0 0 0 1 3.5 - 24.2|4 3 0 3 2.5 - 30.6
L-013|Lark|sheep|lamb|lambs|3 4 2 2 3 - 15.4|13 9 2 3 3 - 23.1|0 0 0 1 3 - 25.4|5 7 0 3 2.5 - 32.2
L-014|Pebble|sheep|lamb|lambs|1 0 2 1 3 - 15.3|3 0 1 2 3 - 22.1|0 2 0 1 3.5 - 25.2|2 3 0 2 3 - 32.1
L-015|Hob|sheep|lamb|lambs|2 1 3 2 3 - 14.6|2 3 2 3 3 - 21.0|1 3 0 2 3 - 23.2|4 6 0 2 3 - 29.9
L-016|Thistle|sheep|lamb|lambs|6 6 2 2 2.5 - 13.3|21 16 1 3 2.5 - 20.5|1 0 0 2 3 - 23.8|15 12 0 3 3 - 29.1
L-017|Cobble|sheep|lamb|lambs|0 2 2 2 3.5 - 13.3|7 8 0 2 3 - 21.4|0 0 0 2 2.5 - 23.5|2 6 0 2 2.5 - 29.3
L-018|Fern|sheep|lamb|lambs|4 5 0 2 2.5 - 9.7|24 13 1 3 2 - 16.6|0 0 0 1 3.5 - 19.3|12 11 0 2 3 - 25.1
L-019|Wren|sheep|lamb|lambs|1 1 3 1 3 - 15.9|1 1 0 1 3.5 - 22.8|1 2 0 1 3 - 25.7|1 2 0 2 3.5 - 32.1
G-011|Juniper|goat|doe|goats|2 0 0 2 3 - 47.5|3 2 0 2 3 - 48.4|1 2 0 2 3.5 - 48.9|2 2 0 1 3.5 - 49.3
G-012|Rowan|goat|doe|goats|0 1 0 1 3 - 45.4|4 3 0 2 3 - 46.9|0 0 0 1 3 - 46.5|0 1 0 2 3 - 48.0
G-013|Hazel|goat|doe|goats|1 3 0 1 3 - 51.4|4 2 0 3 3.5 - 51.4|3 4 0 2 2.5 - 50.6|TNTC - 0 3 3 - 52.3
G-014|Medlar|goat|doe|goats|0 1 0 1 3 - 43.0|0 0 0 1 3 - 44.3|1 0 0 1 3 - 43.8|1 0 0 1 3 - 44.9
G-015|Sloe|goat|doe|goats|4 0 0 1 3 - 46.5|1 4 0 3 3 - 46.7|2 0 0 1 2.5 - 47.4|2 1 0 1 3.5 yes 48.0
G-016|Damson|goat|kid|goats|0 1 0 1 3 - 10.7|1 0 0 2 2.5 - 18.9|2 1 0 1 3 - 22.1|0 1 0 1 2.5 - 27.1
G-017|Bramble|goat|kid|goats|6 5 0 2 3 - 12.3|12 7 0 2 3 - 19.0|2 1 0 1 3 - 21.9|6 9 0 3 2.5 - 28.3
G-018|Quince|goat|kid|goats|6 3 0 3 3 - 12.6|13 3 0 2 3.5 - 20.1|0 0 0 1 3 - 23.2|3 2 0 3 3 - 28.8
`;

/** The four days, and who counted. */
export const demoDays = ['2026-05-10', '2026-06-07', '2026-06-21', '2026-07-19'] as const;

/** Treated on the second day, after its counts, with the one product of the demo. */
export const demoTreated = [
  'G-017',
  'G-018',
  'L-001',
  'L-006',
  'L-012',
  'L-013',
  'L-016',
  'L-017',
  'L-018',
];
