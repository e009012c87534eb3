/**
 * The built command as people run it, every question from the command line to the files and back, and its pages in a
 * browser: most of the time of all tests, and little that the others do not see first.
 */
export const END_TO_END = [
  "test/page/{page,figures,trial,command}.test.ts",
  "test/cli/{brakes,climb,doubt,files,first,gears,output,size,status,trial}.test.ts",
  "test/studies/size-day.test.ts",
];
