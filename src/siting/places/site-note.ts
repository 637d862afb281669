/** Something that a search for places has to tell: a code with its data in SI; words are the report's. */
export interface SiteNote {
  readonly code: /** Along the water's way the ground falls too little. */
    | 'fall-short'
    /** More fall than a drive pipe of the pump's size keeps its rules of length on. */
    | 'fall-great'
    /** No straight drive pipe: the ground stands too high, here and by so much. */
    | 'drive-blocked'
    /** No pipe falls all the way from the source to a standpipe. */
    | 'supply-blocked'
    /** Waste water would stand. */
    | 'waste-stands'
    /** No line leads from the pump to the tank. */
    | 'tank-cut-off'
    /** The tank lies below the water at the source: it runs there by itself. */
    | 'tank-below-source'
    /** Everything that was tried fails; the finding that stops most of it. */
    | 'all-fail'
    /** No size of ram suits the fall and the water. */
    | 'no-size'
    /** The need is not met by anything that runs. */
    | 'need-unmet'
    /** The cells are so wide that the bank and the drive pipe's course are not seen. */
    | 'coarse-cells'
    /** Heights were read in larger cells than the file's own. */
    | 'read-coarser'
    /** No tank and no lift was given: a lift was taken. */
    | 'lift-taken'
    /** The ground does not rise so high in the window. */
    | 'lift-not-found'
    /** Of a place: what stops it. */
    | 'place-fails'
    /** Of a place: more arrives from another one, for so much more pipe. */
    | 'more-elsewhere'
    /** Of a place: none of those found brings more. */
    | 'most-here';
  readonly data: Readonly<Record<string, number | string>>;
}
