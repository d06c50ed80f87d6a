package sim

// Revision is raised with every change that alters results. Answers state it:
// figures of two revisions are not to be compared.
const Revision = 16
