package finding

// Placement is one stage of a cement job followed volume by volume. Its columns
// and those of its spots have one row for each step, joined linearly; volumes in
// m3, times in s, pressures in Pa, depths in m, densities in kg/m3.
type Placement struct {
	String     string        `json:"string"`
	Stage      string        `json:"stage"`
	Exit       Depth         `json:"exit"`               // where it leaves the string
	Collar     bool          `json:"collar,omitempty"`   // that is a stage collar, not the shoe
	Friction   bool          `json:"friction,omitempty"` // counted
	Lacks      []string      `json:"lacks,omitempty"`    // what friction waits for
	NotMet     []string      `json:"not_met,omitempty"`  // titles of the requirements on it that aren't
	Fluids     []PlacedFluid `json:"fluids"`             // in pumping order
	Pumped     []Number      `json:"pumped"`             // at the head
	Time       []Number      `json:"time,omitempty"`     // empty where a rate isn't known
	Head       []Number      `json:"head"`               // at the surface, standing still
	HeadMoving []Number      `json:"head_moving,omitempty"`
	Spots      []Spot        `json:"spots"`
	Moments    []Moment      `json:"moments"`
}

// PlacedFluid is a fluid of a job and when it is pumped.
type PlacedFluid struct {
	Name    string `json:"name"`
	Kind    string `json:"kind"` // as the plan's form calls it; displacement for the last
	Density Number `json:"density"`
	From    Number `json:"from"` // pumped at the head when it begins
	To      Number `json:"to"`   // and when it ends
}

// Spot is a depth of the annulus whose pressure is followed, as an equivalent
// mud weight.
type Spot struct {
	At       Depth    `json:"at"`
	Weakest  bool     `json:"weakest,omitempty"` // least is left under fracture pressure here
	Still    []Number `json:"still"`
	Moving   []Number `json:"moving,omitempty"`
	Fracture *Number  `json:"fracture,omitempty"` // low estimate
	Pore     *Number  `json:"pore,omitempty"`     // high estimate
}

// Moment is the way of a job at one time, from the top down.
type Moment struct {
	Events  []string `json:"events"`
	Told    bool     `json:"told,omitempty"` // worth a picture
	Pumped  Number   `json:"pumped"`
	Inside  []Fill   `json:"inside"`
	Outside []Fill   `json:"outside"`
}

// Fill is a length filled by one fluid: its number from zero in pumping order,
// -1 for the mud that was there before, -2 where the pipe has run empty.
type Fill struct {
	Fluid int    `json:"fluid"`
	From  Number `json:"from"`
	To    Number `json:"to"`
}
