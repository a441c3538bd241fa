package photo
import ("fmt")
func (n *network) debug() {
	for _, part := range n.prior.parts() {
		s := n.settle(&part)
		if s == nil { fmt.Print("nil ") } else { fmt.Printf("%.1f ", s.lnLikely) }
	}
	fmt.Println()
	fmt.Printf("first %v\n%+v\n", n.first, n.photo)
}
