"""From a design to every number a quilter shops or cuts by: pure stages, remembered by value."""
