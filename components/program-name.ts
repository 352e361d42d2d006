/** The name of the program: the same in every language. */
export const programName = 'Sampling Daybook';
